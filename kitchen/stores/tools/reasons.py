"""Why a thing is written off, or counted otherwise than the book has it: the college's own lists.

A change keeps the words, with the note behind them, so that it reads the same when a list
changes. Source of the lists: common practice, no source.
"""

#: Why something that was counted out is written off.
LOST = (
    ("broken", "Broken"),
    ("bin", "Went out with the waste"),
    ("learner", "A learner took it along"),
    ("searched", "Searched for and not found"),
    ("other", "Something else"),
)

#: Why a place has more or fewer than the book says.
CORRECTED = (
    ("counted", "Counted, and the book was wrong"),
    ("bought", "Bought"),
    ("worn", "Worn out and thrown away"),
    ("broken", "Broken"),
    ("away", "Sent out to be ground or repaired"),
    ("came_back", "Came back from being ground or repaired"),
    ("found", "Found again"),
    ("other", "Something else"),
)

#: Why something is moved to another place.
MOVED = (
    ("lives_there", "It is to stay there"),
    ("was_left", "It was left there"),
    ("gathered", "Gathered in the stores"),
    ("other", "Something else"),
)
