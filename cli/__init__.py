"""The command line: one module a verb, loaded only when that verb is called."""
