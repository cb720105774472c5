"""Evidence: a record and its probe log become measures, and measures become weighed pieces."""
