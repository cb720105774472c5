"""Exact inference over causes, compounds and descriptors."""
