"""Whether a set holds what reviewers look for, and says the same wherever it says a thing twice."""
