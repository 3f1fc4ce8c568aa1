"""What the keys of a source state: head, sizes, bodies, gauges, yarns, finished figures."""
