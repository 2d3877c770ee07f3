"""What every line of `changes.jsonl` has."""

from msgspec import Struct


class ChangeLine(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, tag_field="change"):
    n: int = 0
    """Its number in the file, from 1; one that was taken out leaves a gap."""
    at: str = ""
    """When it was made, RFC 3339."""

    @property
    def change(self) -> str:
        """Which change it is, as the file has it."""
        return str(self.__struct_config__.tag)
