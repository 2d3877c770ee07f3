"""Writing a plan: its parts, what can be set on each, what is wrong, always with its sums."""

from pathlib import Path

from msgspec.structs import replace
from textual import events

from classclock.clock.source import local_now
from classclock.club.movements import read_library
from classclock.drafts.own_draft import OwnDraft
from classclock.drafts.plan_being_written import PlanOnDisk, changed_meanwhile, save_plan
from classclock.machine.file_names import file_safe
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.fields import typed_at
from classclock.plan.editing.starts import UNTITLED
from classclock.plan.movements.movements_reading import starter_library
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.editor.own_editor import NoEditorError, edited_outside
from classclock.screens.pages.editor.plan_editor_desk import (
    PlanEditorDesk,
    Wish,
    begin_with_the_title,
)
from classclock.screens.pages.editor.plan_editor_drawing import EditorPage, draw_editor
from classclock.units.printable import printable


class PlanEditorView(Painted):
    def __init__(self, look: Look, page: EditorPage) -> None:
        super().__init__(look)
        self.page = page

    def paint(self, columns: int, rows: int) -> Drawing:
        return draw_editor(self.page, columns, rows, self.look)


_TWICE = "this plan is open in another window too: save in one of them, leave the other"


class PlanEditorScreen(PageScreen[str]):
    """Ends with its last words: where the plan was saved, or that its draft stays."""

    view: PlanEditorView

    def __init__(self, look: Look, plan: PlanOnDisk, *, folder: Path, club: Club) -> None:
        """`folder` is the club's. A draft that is kept for this plan is offered first."""
        super().__init__()
        self.folder = folder
        self.plan = plan
        self._own = OwnDraft(folder, plan.path)
        self.kept_in = self._own.file
        kept = self.kept_in.read()
        if kept is not None and kept.text == plan.text and not kept.key:
            kept = None
        self._base = kept.data if kept is not None and plan.path is not None else plan.data
        library = read_library(folder / "movements.toml")[0] or starter_library()
        name = plan.path.name if plan.path is not None else "the plan"
        draft = Draft(plan.text, name=name, unit=club.unit, library=library)
        self.desk = PlanEditorDesk(draft, library, kept=kept)
        self.desk.notice = plan.note if self._own.alone else _TWICE
        if plan.path is None:
            self.desk.saved = None
        if typed_at(self.desk.part, "title") == UNTITLED:
            begin_with_the_title(self.desk)
        self.said = ""
        self.view = PlanEditorView(look, EditorPage(self.desk, self._file))

    @property
    def _file(self) -> str:
        return "" if self.plan.path is None else self.plan.path.name

    def on_unmount(self) -> None:
        self._own.release()

    def quit(self) -> None:
        self._leave()

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        for sign in event.text:
            if self.desk.mode == "entry":
                self.take("<space>" if sign.isspace() else sign)
        self.view.repaint()

    def take(self, sign: str) -> bool:
        offered = self.desk.kept
        wish = self.desk.sign(sign)
        if offered is not None and self.desk.kept is None and sign == "<enter>":
            # What the draft was begun from, so that a change of the file since is noticed.
            self.plan = replace(self.plan, data=self._base)
        if self.desk.mode != "draft" and wish != "leave":
            self._keep()
        self._do(wish)
        return False

    def _do(self, wish: Wish) -> None:
        match wish:
            case "save" if changed_meanwhile(self.plan):
                self.desk.mode = "changed"
            case "save" | "overwrite":
                self._save(self.plan)
            case "save beside":
                self._save(PlanOnDisk(self.desk.draft.text))
            case "own editor":
                self._edit_outside()
            case "leave":
                self._leave()
            case "drop":
                self.kept_in.drop()
                self.dismiss(self.said)

    def _leave(self) -> None:
        if self.desk.mode == "draft" or (self.desk.unsaved and self.kept_in.path.exists()):
            self.said = "the plan isn't saved; its draft is offered the next time"
        self.dismiss(self.said)

    def _keep(self) -> None:
        """Put what isn't saved where it outlives this process: at every key, half a word too."""
        kept = self.desk.to_keep(local_now().isoformat(timespec="seconds"), self.plan.data)
        if kept is None:
            self.kept_in.drop()
            return
        try:
            self.kept_in.keep(kept)
        except OSError as error:
            self.desk.notice = f"the draft can't be kept ({error.strerror}): ctrl+s saves the plan"

    def _save(self, plan: PlanOnDisk) -> None:
        desk = self.desk
        title = typed_at(desk.draft.reading.parts[0], "title") or UNTITLED
        try:
            self.plan = save_plan(plan, desk.draft.text, title, self.folder)
        except OSError as error:
            desk.notice = f"it can't be saved ({error.strerror}): the draft is kept"
            return
        self.kept_in.drop()
        self._own.release()
        self._own = OwnDraft(self.folder, self.plan.path)
        self.kept_in = self._own.file
        desk.saved = desk.draft.text
        self.view.page.file = self._file
        self.said = f"saved: {self.plan.path}"
        faulty = desk.draft.reading.plan is None
        still = ", with what is still wrong in it" if faulty else ""
        desk.notice = f"saved as {printable(self._file)}{still}"

    def _edit_outside(self) -> None:
        desk = self.desk
        name = self._file or f"{file_safe(typed_at(desk.draft.reading.parts[0], 'title'))}.toml"
        try:
            text = edited_outside(self.app, desk.draft.text, name)
        except NoEditorError as error:
            desk.notice = str(error)
            return
        changed = desk.draft.change(text)
        desk.notice = "taken over from your editor" if changed else "nothing was changed there"
        self._keep()
