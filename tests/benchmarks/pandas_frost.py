"""The table of ``sowtide frost`` by pandas, as short and as fast as a grower's script would be.

Called with a CSV of `date`, `tmin` and `tmax` in °F. It leaves out less than the command does: it
looks for no missing day that could hide a frost, and draws no years.
"""

import sys

import pandas

SHARES = [0.1, 0.5, 0.9]

days = pandas.read_csv(sys.argv[1], parse_dates=["date"]).set_index("date")
days = days[days["tmax"] - days["tmin"] <= 72]
lows = ((days["tmin"] - 32) / 1.8).round(1)
for fahrenheit in (36, 32, 28, 24, 20):
    frosts = lows[lows <= round((fahrenheit - 32) / 1.8, 1)].index.to_series()
    # A year from midsummer to midsummer is named by its end in spring and by its start in autumn.
    later = (frosts.dt.month >= 7).astype(int)
    last = frosts.groupby(frosts.dt.year + later).max()
    first = frosts.groupby(frosts.dt.year + later - 1).min()
    counted = [
        (half - pandas.to_datetime(half.index.astype(str) + "-03-01")).dt.days
        for half in (last, first)
    ]
    lengths = (first - last).dropna().dt.days
    table = [half.quantile(SHARES).tolist() for half in (*counted, lengths)]
    sys.stdout.write(f"{fahrenheit} °F {table}\n")
