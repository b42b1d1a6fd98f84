"""What the drafter says: frozen models, one file per topic, and the loader of a job."""
