"""Charts: what one shows, its drawing in millimetres, its tiles, its key and its written rows."""
