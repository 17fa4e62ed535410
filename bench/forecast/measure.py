"""How long `forecast --batch` takes for fleets of many sizes, what memory it needs, and how it compares with twin.py.

python3 bench/forecast/measure.py [ENGINES]: from the project's root, after ./shimwright was built. Needs numpy and scipy.
"""
import itertools
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).parent
PROGRAM = HERE.parent.parent / "shimwright"
CHECKS, TWIN = 20, 1000


def run(command, source, target):
    start = time.monotonic()
    with open(source) as read, open(target, "w") as write:
        child = subprocess.Popen(command, stdin=read, stdout=write, stderr=subprocess.DEVNULL)
        _, status, usage = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"{command} ended with {status}")
    return time.monotonic() - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def first(source, lines, target):
    """Line by line: what this process holds counts as memory of the programs that it starts."""
    with open(source) as read, open(target, "w") as write:
        write.writelines(itertools.islice(read, lines))


def largest_differences(ours, twins):
    worst = {"checkBy, h": 0.0, "loss an interval, mm": 0.0, "its sd, mm": 0.0, "chance out": 0.0}
    for mine, twin in zip(ours, twins, strict=True):
        rows = [(abs(mine["checkBy"] - twin["checkBy"]), 0, 0, 0)] + [
            (0, abs(v["lossPerInterval"] - t[0]), abs(v["sdLossPerInterval"] - t[1]), abs(v["chanceOutAtInterval"] - t[2]))
            for v, t in zip(mine["valves"], twin["valves"], strict=True)]
        for name, column in zip(worst, zip(*rows)):
            worst[name] = max(worst[name], *column)
    return worst


def main():
    most = int(sys.argv[1]) if len(sys.argv) > 1 else 10_000
    subprocess.run([PROGRAM, "--version"], check=True, stdout=subprocess.DEVNULL)
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder)
        fleet = place / "fleet.jsonl"
        with open(fleet, "w") as file:
            subprocess.run([sys.executable, HERE / "fleet.py", str(most), str(CHECKS)], stdout=file, check=True)
        print("| program | engines | seconds | processor seconds | ms an engine | memory, MB |\n|---|---|---|---|---|---|")
        for size in [most // 8, most // 4, most // 2, most]:
            part = place / f"{size}.jsonl"
            first(fleet, size, part)
            wall, cpu, memory = run([PROGRAM, "forecast", "--batch", "-"], part, place / f"ours-{size}.jsonl")
            print(f"| shimwright | {size} | {wall:.1f} | {cpu:.1f} | {1000 * cpu / size:.2f} | {memory:.0f} |", flush=True)
        few = place / "few.jsonl"
        count = min(TWIN, most)
        first(fleet, count, few)
        wall, cpu, memory = run([sys.executable, HERE / "twin.py"], few, place / "twin.jsonl")
        print(f"| numpy and scipy | {count} | {wall:.1f} | {cpu:.1f} | {1000 * cpu / count:.2f} | {memory:.0f} |")
        read = [[json.loads(line) for line in (place / name).read_text().splitlines()] for name in (f"ours-{most}.jsonl", "twin.jsonl")]
        differences = largest_differences(read[0][:count], read[1])
        print("largest differences: " + "; ".join(f"{name} {value:.2g}" for name, value in differences.items()))


if __name__ == "__main__":
    main()
