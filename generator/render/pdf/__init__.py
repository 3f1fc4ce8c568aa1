"""The PDF render: typography, page layout and tagging."""
