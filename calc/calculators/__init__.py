"""One calculator a file: inputs in, Answer out."""
