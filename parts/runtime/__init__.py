"""The Python we run on and the libraries beside it, as they have to be taken."""
