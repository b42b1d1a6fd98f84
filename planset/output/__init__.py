"""What stands on disk: findings as JSON, the manifest, and a set moved into place whole."""
