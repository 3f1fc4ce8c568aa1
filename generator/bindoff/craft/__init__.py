"""Tables of the trade: yarn weights, needles and hooks, body measures, ease."""
