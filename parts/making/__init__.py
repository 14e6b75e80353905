"""From a checked job to its folder: planned, drawn, built in the kernel's process, exchanged whole or not at all."""
