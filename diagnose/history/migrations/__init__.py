"""How a store came to be what it is, one revision a file."""
