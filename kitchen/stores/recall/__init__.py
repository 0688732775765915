"""From a lot forward to lessons, benches and learners, and from a plate back to suppliers."""
