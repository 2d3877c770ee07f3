"""What of the screens can be read from the back of the room: `make readable`.

The screens are drawn as in a class, with every text marked; what the marks say is measured, and
read by an outside reader. No part of the program.
"""
