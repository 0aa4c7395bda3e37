"""What programs are told, checked by code that shares nothing with the drills: no module here imports them."""
