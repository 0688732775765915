"""The rules of the house as functions: sources in, complaints in words out."""
