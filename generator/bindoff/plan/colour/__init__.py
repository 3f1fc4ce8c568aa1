"""The colour engine: base stripes, embroidery, floats, technique and palette of a colour grid."""
