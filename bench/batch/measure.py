"""How much faster a batch is on all cores than on one, and whether its answers are the same ones: forecast, next and plan.

python3 bench/batch/measure.py [REPEATS]: from the project's root, after ./shimwright was built. The two take turns in one run.
"""
import json
import os
import pathlib
import statistics
import subprocess
import sys
import tempfile
import time

HERE = pathlib.Path(__file__).parent
ROOT = HERE.parent.parent
PROGRAM = ROOT / "artifacts" / "app" / "shimwright"
LINES = {"forecast": 1500, "next": 24, "plan": 24}


def jobs(count, command):
    """Demo jobs in turn; the name of the engine alone differs, so that no answer can be taken for another's."""
    files = ["09-third-check.json"] if command == "forecast" else ["01-flood-pump.json", "02-worn-four.json", "04-shim-over-bucket-twin.json", "03-leave-alone.json"]
    for number in range(count):
        job = json.loads((ROOT / "demo" / files[number % len(files)]).read_text())
        job["engine"]["name"] = f"{job['engine']['name']} {number}"
        yield json.dumps(job)


def run(command, source, target, cores):
    """On these cores alone: what the runtime itself does beside the work counts too."""
    start = time.monotonic()
    with open(target, "w") as write:
        child = subprocess.Popen([PROGRAM, command, "--batch", source], stdout=write, preexec_fn=lambda: os.sched_setaffinity(0, cores))
        _, status, usage = os.wait4(child.pid, 0)
    if status != 0:
        sys.exit(f"{command} ended with {status}")
    return time.monotonic() - start, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main():
    everywhere = os.sched_getaffinity(0)
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    subprocess.run([ROOT / "shimwright", "--version"], check=True, stdout=subprocess.DEVNULL)
    print(f"{len(everywhere)} cores\n\n| command | lines | one core, s | all cores, s | times | memory, MB | memory of four times as many |\n|---|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as folder:
        place = pathlib.Path(folder)
        for command, lines in LINES.items():
            source, four = place / f"{command}.jsonl", place / f"{command}-four.jsonl"
            for file, count in ((source, lines), (four, 4 * lines)):
                file.write_text("\n".join(jobs(count, command)) + "\n")
            one, all_, memory = [], [], []
            for _ in range(repeats):
                one.append(run(command, source, place / "one", {min(everywhere)})[0])
                seconds, _, used = run(command, source, place / "all", everywhere)
                all_.append(seconds)
                memory.append(used)
                if (place / "one").read_bytes() != (place / "all").read_bytes():
                    sys.exit(f"{command}: the answers differ")
            more = run(command, four, place / "four", everywhere)[2]
            times = statistics.median(a / b for a, b in zip(one, all_))
            print(f"| {command} | {lines} | {statistics.median(one):.1f} | {statistics.median(all_):.1f} | {times:.2f} | {max(memory):.0f} | {more:.0f} |", flush=True)


if __name__ == "__main__":
    main()
