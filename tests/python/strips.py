"""Packs the pieces that the bench wrote on a strip, with an independent search, as long as the bench had.

    GABLE_STRIP=pieces.txt GABLE_SECONDS=60 cargo bench -p gable-tests --bench nesting
    pip install spyrrow==0.9.0
    python tests/python/strips.py pieces.txt 60

The file: number of pieces, height of the strip, then for each piece the number of corners and their x and y in mm.
Both sides may turn pieces end for end, keep no gap, and use one thread. Prints length and density.
"""

import sys

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
    found = strip.solve(config)
    density = sum(map(area, rings)) / (height * found.width)
    print(f"spyrrow: {len(rings)} pieces, {seconds} s: {found.width:.1f} mm, {100 * density:.2f} %")


main()
