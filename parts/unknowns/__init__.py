"""What is not known: judged over the whole of its range, and told by what it decides."""
