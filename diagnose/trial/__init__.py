"""Split batches: choose one, plan it, check its arms, serve it blind and read it back."""
