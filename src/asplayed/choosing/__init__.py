"""What-ifs: a set as it is beside the set as it would be."""
