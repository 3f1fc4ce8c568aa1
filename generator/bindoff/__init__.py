"""One knitting-pattern source in, every published document out."""
