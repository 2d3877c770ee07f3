"""The files behind a plan's editor: the plan's own, and the draft that outlives this process."""

from pathlib import Path

from msgspec.structs import replace

from classclock.drafts.own_draft import OwnDraft
from classclock.drafts.plan_being_written import (
    KeptDraft,
    PlanOnDisk,
    changed_meanwhile,
    save_plan,
)


class EditorFiles:
    def __init__(self, plan: PlanOnDisk, folder: Path) -> None:
        """`folder` is the club's."""
        self._plan, self._folder = plan, folder
        self._own = OwnDraft(folder, plan.path)
        self.said = ""
        """Where the plan was saved last; empty until it is."""

    @property
    def name(self) -> str:
        """What the plan's file is called; empty where it has none yet."""
        return "" if self._plan.path is None else self._plan.path.name

    @property
    def alone(self) -> bool:
        """Whether no other editor has this plan open."""
        return self._own.alone

    @property
    def data(self) -> bytes | None:
        """The plan's file as it stood when it was read, or written here."""
        return self._plan.data

    @property
    def changed_meanwhile(self) -> bool:
        """Whether somebody else has written the plan's file since."""
        return changed_meanwhile(self._plan)

    @property
    def draft_stays(self) -> bool:
        return self._own.file.path.exists()

    def offered(self) -> KeptDraft | None:
        """A draft of an earlier time that says more than the plan's file."""
        kept = self._own.file.read()
        return None if kept is None or (kept.text == self._plan.text and not kept.key) else kept

    def go_on_with(self, kept: KeptDraft) -> None:
        """What it was begun from counts, so that a change of the file since is noticed."""
        if self._plan.path is not None:
            self._plan = replace(self._plan, data=kept.data)

    def keep(self, kept: KeptDraft | None) -> None:
        """Put what isn't saved where it outlives this process; None: all is. Raises OSError."""
        if kept is None:
            self.drop()
        else:
            self._own.file.keep(kept)

    def drop(self) -> None:
        self._own.file.drop()

    def save(self, text: str, title: str, *, beside: bool = False) -> None:
        """Write the plan into its file, or into a new one of this title. Raises OSError."""
        plan = PlanOnDisk(text) if beside else self._plan
        self._plan = save_plan(plan, text, title, self._folder)
        self.drop()
        self.release()
        self._own = OwnDraft(self._folder, self._plan.path)
        self.said = f"saved: {self._plan.path}"

    def release(self) -> None:
        """Leave the draft to the next editor."""
        self._own.release()
