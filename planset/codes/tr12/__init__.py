"""General dowel equations by Technical Report 12 of the American Wood Council."""
