"""Write the handbook's pages anew: `python -m docs`."""

from docs.pages import FOLDER, PAGES

if __name__ == "__main__":
    for name, written in PAGES.items():
        (FOLDER / name).write_text(written(), "utf-8")
