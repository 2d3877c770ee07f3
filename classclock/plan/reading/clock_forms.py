"""How a clock without a plan is said: one line of each form, as they are shown."""

FORMS = ("rounds 12", "for time 15", "8 x 20/10", "down 5")
