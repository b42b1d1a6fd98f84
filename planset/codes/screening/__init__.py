"""Published lists by which a small array on a dwelling may go without an engineer's calculation."""
