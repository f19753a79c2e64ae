"""Packs the pieces that the bench wrote on a strip, with an independent search.

    GABLE_STRIP=pieces.txt GABLE_SECONDS=0 cargo bench -p gable-tests --bench nesting
    pip install spyrrow==0.9.0
    python tests/python/strips.py pieces.txt 60
    GABLE_STRIP=pieces.txt GABLE_SECONDS=... cargo bench -p gable-tests --bench nesting

It searches for so many seconds by the clock and says how many of the processor it had; the bench, whose seconds are the
processor's, then gets as many, so that whatever else is at work on the machine takes nothing from either.

The file: number of pieces, height of the strip, then for each piece the number of corners and their x and y in mm.
Both sides may turn pieces end for end, keep no gap, and use one thread. Prints length and density.
"""

import sys
import time

import spyrrow


def read(path):
    with open(path, encoding="utf-8") as file:
        numbers = iter(file.read().split())
    count, height = int(next(numbers)), float(next(numbers))
    rings = []
    for _ in range(count):
        corners = int(next(numbers))
        ring = [(float(next(numbers)), float(next(numbers))) for _ in range(corners)]
        rings.append(ring)
    return height, rings


def area(ring):
    pairs = zip(ring, ring[1:] + ring[:1])
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def main():
    height, rings = read(sys.argv[1])
    seconds = int(sys.argv[2])
    items = [spyrrow.Item(str(k), ring + ring[:1], demand=1, allowed_orientations=[0, 180]) for k, ring in enumerate(rings)]
    strip = spyrrow.StripPackingInstance("pieces", strip_height=height, items=items)
    config = spyrrow.StripPackingConfig(early_termination=False, total_computation_time=seconds, num_workers=1, seed=1)
    begin = time.process_time()
    found = strip.solve(config)
    spent = time.process_time() - begin
    density = sum(map(area, rings)) / (height * found.width)
    print(f"spyrrow: {len(rings)} pieces, {spent:.1f} s of the processor: {found.width:.1f} mm, {100 * density:.2f} %")


main()
