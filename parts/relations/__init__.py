"""One published equation a function, the solvers and fits: plain numbers in, plain numbers out; no book, no job."""
