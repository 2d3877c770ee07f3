"""Writing a plan: its parts, what can be set on each, what is wrong, always with its sums."""

from functools import partial
from pathlib import Path

from textual import events

from classclock.clock.source import local_now
from classclock.club.movements import read_library
from classclock.drafts.plan_being_written import PlanOnDisk
from classclock.machine.file_names import whole_name
from classclock.plan.editing.draft import Draft
from classclock.plan.editing.starts import UNTITLED
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.controls.drawn_view import DrawnView
from classclock.screens.controls.page_screen import PageScreen
from classclock.screens.pages.editor.editor_files import EditorFiles
from classclock.screens.pages.editor.own_editor import NoEditorError, edited_outside
from classclock.screens.pages.editor.plan_editor_desk import PlanEditorDesk, Wish
from classclock.screens.pages.editor.plan_editor_drawing import draw_editor
from classclock.units.printable import printable

_TWICE = "this plan is open in another window too: save in one of them, leave the other"
_STAYS = "the plan isn't saved; its draft is offered the next time"


class PlanEditorScreen(PageScreen[str]):
    """Ends with its last words: where the plan was saved, or that its draft stays."""

    def __init__(self, look: Look, plan: PlanOnDisk, *, folder: Path, club: Club) -> None:
        """`folder` is the club's. A draft that is kept for this plan is offered first."""
        super().__init__()
        self.files = EditorFiles(plan, folder)
        library = read_library(folder / "movements.toml")[0] or starter_library()
        name = self.files.name or "the plan"
        draft = Draft(plan.text, name=name, unit=club.unit, library=library)
        self.desk = PlanEditorDesk(draft, library, file=self.files.name, kept=self.files.offered())
        self.desk.notice = plan.note if self.files.alone else _TWICE
        if self.desk.title == UNTITLED:
            self.desk.ask_title()
        self.view = DrawnView(look, partial(draw_editor, self.desk))

    def on_unmount(self) -> None:
        self.files.release()

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
            self.files.go_on_with(offered)
        if self.desk.mode != "draft" and wish != "leave":
            self._keep()
        self._do(wish)
        return False

    def _do(self, wish: Wish) -> None:
        match wish:
            case "save" if self.files.changed_meanwhile:
                self.desk.mode = "changed"
            case "save" | "overwrite" | "save beside":
                self._save(beside=wish == "save beside")
            case "own editor":
                self._edit_outside()
            case "leave":
                self._leave()
            case "drop":
                self.files.drop()
                self.dismiss(self.files.said)

    def _leave(self) -> None:
        desk = self.desk
        stays = desk.mode == "draft" or (desk.unsaved and self.files.draft_stays)
        self.dismiss(_STAYS if stays else self.files.said)

    def _keep(self) -> None:
        """Keep what isn't saved: at every key, half a word too."""
        now = local_now().isoformat(timespec="seconds")
        try:
            self.files.keep(self.desk.to_keep(now, self.files.data))
        except OSError as error:
            self.desk.notice = f"the draft can't be kept ({error.strerror}): ctrl+s saves the plan"

    def _save(self, *, beside: bool) -> None:
        desk = self.desk
        try:
            self.files.save(desk.draft.text, desk.title or UNTITLED, beside=beside)
        except OSError as error:
            desk.notice = f"it can't be saved ({error.strerror}): the draft is kept"
            return
        desk.know_saved(self.files.name)
        still = ", with what is still wrong in it" if desk.draft.reading.plan is None else ""
        desk.notice = f"saved as {printable(self.files.name)}{still}"

    def _edit_outside(self) -> None:
        desk = self.desk
        name = self.files.name or f"{whole_name(desk.title, 'plan')}.toml"
        try:
            text = edited_outside(self.app, desk.draft.text, name)
        except NoEditorError as error:
            desk.notice = str(error)
            return
        changed = desk.draft.change(text)
        desk.notice = "taken over from your editor" if changed else "nothing was changed there"
        self._keep()
