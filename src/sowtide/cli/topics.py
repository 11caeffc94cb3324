"""What ``sowtide help TOPIC`` says; the man page is made of the same."""

from __future__ import annotations

from sowtide.values import value


@value
class Topic:
    """Something worth knowing that belongs to no single command."""

    name: str
    """What it is asked for by."""
    title: str
    """What it is about."""
    paragraphs: tuple[str, ...]
    """What there is to say; a line that begins with two spaces is an example."""


TOPICS = (
    Topic(
        "start",
        "from nothing to the first week",
        (
            "Write a garden's file to start from, put your own beds, crops and frost dates into "
            "it, see what is wrong with it, and ask what to do this week:",
            "  sowtide new",
            "  sowtide check",
            "  sowtide week",
            "With --demo every command looks at an invented garden that comes with sowtide.",
        ),
    ),
    Topic(
        "week",
        "the routine of a week",
        (
            "Print the sheet, take it along, tick the boxes and write down what was picked. In the "
            "evening type the codes of what was done; the rest of the plan moves with it:",
            "  sowtide week --format html --output week.html",
            "  sowtide did jqtn qxzz",
            "  sowtide did bush-bean-1 picked=1.4lb",
            "What cannot slip stands first: its last safe day lies in this week.",
        ),
    ),
    Topic(
        "files",
        "which files are read and written",
        (
            "The garden's file is the one that --garden names, else the one that the environment "
            "variable SOWTIDE_GARDEN names, else garden.yaml. Its journal stands beside it, "
            "journal.yaml unless the file says otherwise. Only sowtide did writes, and only into "
            "the journal.",
            "With --output a command writes what it says into a file, whole or not at all. A file "
            "that sowtide wrote in the same form is written anew; any other is left alone unless "
            "--replace is given.",
        ),
    ),
    Topic(
        "paper",
        "printing and pinning up",
        (
            "The calendar and the week's sheet are made to be printed, on A4 or on US letter:",
            "  sowtide calendar --format html --output calendar.html",
            "  sowtide week --format html --paper letter --output week.html",
            "Open the file in any browser and print it from there. It needs no network and runs no "
            "script.",
        ),
    ),
    Topic(
        "phone",
        "the plan in the phone's calendar",
        (
            "Import the file into the calendar of your phone, and again whenever the plan has "
            "moved: what is known already moves, nothing is doubled.",
            "  sowtide plan --format ics --output plan.ics",
            "What cannot be put off rings on the evening before.",
        ),
    ),
    Topic(
        "editor",
        "an editor that checks the garden's file",
        (
            "An editor that knows JSON Schema checks the file as you type, says what a key means "
            "and offers what may stand there, once the schema lies beside it:",
            "  sowtide schema --output garden.schema.json",
            "The file that sowtide new writes names it in a remark at its head.",
        ),
    ),
    Topic(
        "completion",
        "the shell completes names",
        (
            "Let the shell complete commands, options, and the names of your waves, beds and "
            "crops. Put one of these lines into its start file:",
            '  eval "$(_SOWTIDE_COMPLETE=bash_source sowtide)"     in ~/.bashrc',
            '  eval "$(_SOWTIDE_COMPLETE=zsh_source sowtide)"      in ~/.zshrc',
            "  _SOWTIDE_COMPLETE=fish_source sowtide | source     in ~/.config/fish/config.fish",
        ),
    ),
    Topic(
        "odds",
        "what the odds are and are not",
        (
            "Odds count years: 83 in 100 means that in 83 years of 100 a wave can be picked for "
            "its worthwhile days before frost, heat or cold ends it. With a record of your own "
            "place they count its years. Safe is what the site's key sure says, 80 years of 100 "
            "unless it says otherwise.",
            "They are no promises: your garden, your varieties and this year will differ. Each "
            "page ends with what it rests on; sowtide frost says all of it.",
        ),
    ),
    Topic(
        "exit",
        "exit codes",
        (
            "0: done. Problems of a plan are listed and stop nothing.",
            "1: the file cannot be taken as it is written, or check found that something cannot "
            "come true.",
            "2: wrong usage, a file that cannot be opened or written, or something else that the "
            "system refuses.",
            "3: a fault of sowtide's own.",
            "130: interrupted. 141: whoever read what was printed had seen enough.",
        ),
    ),
)
"""In the order in which a grower meets them."""
