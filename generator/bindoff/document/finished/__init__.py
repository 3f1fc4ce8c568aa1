"""The finished piece as a picture: its outline, filled with the stitches of the plan."""
