"""Who is asked, when, and on what: the learner, time, files and the screen."""

__version__ = "0.1.0"
