"""The demonstration college: read from fixtures, loaded and worked through actions."""
