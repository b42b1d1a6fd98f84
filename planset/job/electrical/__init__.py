"""The electrical section of a job, a file per topic."""
