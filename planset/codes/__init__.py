"""Published clauses and tables, one package per document; the path is the citation."""
