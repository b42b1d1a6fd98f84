"""Everything that follows from a job, without opinions: geometry, positions, loads, circuits."""
