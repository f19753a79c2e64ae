"""How long the window takes to its first picture, and how much memory it takes, on a virtual screen with software GL.

    python3 tests/python/window_start.py target/release/gablewright boat-hut pilot-house

Needs Xvfb and ImageMagick, as tests/run installs them. A picture is taken again and again, which takes a tenth of a second
itself, so times are late by as much. For docs/speed.md; no test, for a busy machine is slow.
"""

import os
import subprocess
import sys
import tempfile
import time

SIZE = (1360, 860)
# Where the house stands in space.
VIEW = "520x600+827+87"


def is_biscuit(red, green, blue):
    return red > 110 and red > green + 15 and green > blue + 20


def pixels(display):
    """Some pixels of the screen, as triples."""
    shot = ["import", "-display", display, "-window", "root", "-depth", "8", "-crop", VIEW, "rgb:-"]
    raw = subprocess.run(shot, capture_output=True, check=True).stdout
    return [tuple(raw[k : k + 3]) for k in range(0, len(raw), 3 * 37)]


def ticks(process):
    """Hundredths of a second on the processor: fields 14 and 15 of proc(5)."""
    with open(f"/proc/{process.pid}/stat") as stat:
        return sum(int(n) for n in stat.read().rsplit(")", 1)[1].split()[11:13])


def megabytes(process, field):
    with open(f"/proc/{process.pid}/status") as status:
        return next(int(line.split()[1]) // 1024 for line in status if line.startswith(field))


def measure(program, house):
    screen = ["Xvfb", "-displayfd", "1", "-noreset", "-screen", "0", f"{SIZE[0]}x{SIZE[1]}x24", "+extension", "GLX"]
    server = subprocess.Popen(screen, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
    display = ":" + server.stdout.readline().decode().strip()
    with tempfile.TemporaryDirectory() as home:
        own = {"DISPLAY": display, "LIBGL_ALWAYS_SOFTWARE": "1", "HOME": home}
        own |= {name: home for name in ("XDG_DATA_HOME", "XDG_CONFIG_HOME", "XDG_RUNTIME_DIR")}
        begun = time.monotonic()
        window = subprocess.Popen([program, house], env=os.environ | own, stderr=subprocess.DEVNULL)
        try:
            while True:
                asked = time.monotonic() - begun
                seen = pixels(display)
                if sum(is_biscuit(*pixel) for pixel in seen) > len(seen) // 60:
                    break
                if asked > 60:
                    raise SystemExit(f"{house} did not appear")
            time.sleep(3)
            before = ticks(window)
            time.sleep(5)
            idle = ticks(window) - before
            most, own_memory = megabytes(window, "VmHWM"), megabytes(window, "RssAnon")
            print(f"{house}: seen after {asked:.2f} s; {most} MB at most, {own_memory} MB of its own; {idle} ticks in 5 s at rest")
        finally:
            window.kill()
            window.wait()
            server.terminate()
            server.wait()


if __name__ == "__main__":
    for name in sys.argv[2:]:
        measure(sys.argv[1], name)
