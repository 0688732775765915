"""What each role of the college is called and what its first page is for."""

LECTURER = "lecturer"
STORES = "stores"
TECHNICIAN = "technician"
STUDENT = "student"
SECOND_MARKER = "second_marker"
VERIFIER = "verifier"
MANAGER = "manager"
EXTERNAL = "external"

#: In the order in which a person with several roles is served.
ALL = (LECTURER, STORES, TECHNICIAN, SECOND_MARKER, VERIFIER, MANAGER, EXTERNAL, STUDENT)

WORDS = {
    LECTURER: "lecturer",
    STORES: "stores",
    TECHNICIAN: "technician",
    STUDENT: "student",
    SECOND_MARKER: "second marker",
    VERIFIER: "internal verifier",
    MANAGER: "programme manager",
    EXTERNAL: "external examiner",
}

#: Everybody of the college who is not a learner or a guest.
STAFF = frozenset({LECTURER, STORES, TECHNICIAN, SECOND_MARKER, VERIFIER, MANAGER})
#: Who issues food and equipment.
KITCHEN_HANDS = frozenset({STORES, TECHNICIAN})
#: Whose work needs to know what a learner avoids.
NEEDS_DIETS = frozenset({LECTURER, STORES, TECHNICIAN})
