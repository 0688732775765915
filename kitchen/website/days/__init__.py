"""The first page of each role, assembled from what stands in the books."""
