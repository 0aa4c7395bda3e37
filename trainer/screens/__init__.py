"""Every screen, one file each."""
