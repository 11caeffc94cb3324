"""Care on the season's calendar: what is still to come, without what comes every week."""

from __future__ import annotations

from datetime import date

from gardens import wave
from printed import calendar_text
from sowtide.report.calendar import view
from tended import garden_with, season_with

FEED = "name: dry feed, do: feed, on: fruit, from: planting out + 10, every: 20"
SPRAY = "name: mildew, do: spray, on: fruit, from: 07-22"
SOAK = "name: soak, do: water, on: everything, every: 7, amount: 25 mm"
LOOK = "name: look, do: scout, on: everything, every: 7"


def test_it_is_counted_by_days_from_today_on() -> None:
    # Both are sown on 1 June and picked till 3 August: fed on 11 June, 1 and 21 July, together.
    waves = (wave(start="06-01"), wave(start="06-01", name="more"))
    file = garden_with(FEED, SPRAY, SOAK, LOOK, waves=waves)
    feed, spray = view(season_with(file)).care
    assert (feed.routine, feed.does, feed.times) == ("dry feed", "feed", 3)
    assert (feed.from_, feed.to) == (date(2026, 6, 11), date(2026, 7, 21))
    assert (spray.routine, spray.times) == ("mildew", 1)
    later = season_with(file, today=date(2026, 7, 2))
    (feed, spray) = view(later).care
    assert (feed.times, feed.from_) == (1, date(2026, 7, 21))
    fed = "on: 2026-07-03, wave: fruit-1, did: fed, with: dry feed"
    noted = season_with(
        file, "on: 2026-06-01, wave: fruit-1, did: sown", fed, today=date(2026, 7, 3)
    )
    days = view(noted).care[0]
    assert (days.times, days.from_) == (
        1,
        date(2026, 7, 23),
    )  # twenty days on, what is noted left out
    text = " ".join(" ".join(calendar_text(season_with(file))).split())
    assert "CARE TO COME: dry feed 11 Jun – 21 Jul (3 days), mildew 22 Jul" in text


def test_a_garden_without_care_says_nothing_of_it() -> None:
    season = season_with(garden_with().replace("care:\n", ""))
    assert view(season).care == ()
    assert "CARE TO COME" not in "\n".join(calendar_text(season))
