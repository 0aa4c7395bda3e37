"""Does the schedule make readers? Simulated learners that it was not made from, and what people would otherwise do."""
