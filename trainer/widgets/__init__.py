"""What the screens are built of, one file each."""
