"""Finds the people of the demonstration college, and says with what they sign in."""

from curriculum.people.models import Group, Student, User

#: Everybody of the invented college signs in with this; the site answers on 127.0.0.1 only.
PASSWORD = "leek-and-cheddar"

#: role -> username of the person who shows it.
LOGINS = {
    "lecturer": "marek",
    "stores": "hana",
    "technician": "desmond",
    "student": "wren",
    "second_marker": "tobias",
    "verifier": "ruth",
    "manager": "priya",
    "external": "ignatia",
}


def person(code: str) -> User:
    """The account of somebody of the demonstration college, by its username."""
    return User.objects.get(username=code)


def group(code: str) -> Group:
    """A group of the demonstration college, by its code."""
    return Group.objects.get(code=code)


def learners() -> dict[str, Student]:
    """Every learner by username, with the account."""
    return {student.user.username: student for student in Student.objects.select_related("user")}


def logins() -> dict[str, dict[str, str]]:
    """One login a role."""
    return {role: {"username": username, "password": PASSWORD} for role, username in LOGINS.items()}
