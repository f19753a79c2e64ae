"""Bends plates with Morley's triangle (scikit-fem, PyPI), which is neither ours nor conforming as ours nearly is.

Reads a list of cases from standard input: points, triangles, points that are held, Poisson's ratio, places to look at. Each triangle is
split in sixteen. Writes the deflection for unit load and unit D, and the moments (xx, yy, xy), at every place.
"""

import json
import sys

import numpy as np
from skfem import Basis, BilinearForm, ElementTriMorley, LinearForm, MeshTri, condense, solve
from skfem.helpers import dd, ddot, eye, trace


def bent(case):
    mesh = MeshTri(np.array(case["points"]).T, np.array(case["triangles"]).T).refined(2)
    basis = Basis(mesh, ElementTriMorley(), intorder=4)
    nu = case["narrowing"]

    def moment(curvature):
        return (1 - nu) * curvature + nu * eye(trace(curvature), 2)

    @BilinearForm
    def stiffness(u, v, _):
        return ddot(moment(dd(u)), dd(v))

    @LinearForm
    def load(v, _):
        return 1.0 * v

    held = np.zeros(mesh.p.shape[1], dtype=bool)
    for (ax, ay), (bx, by) in case["held"]:
        a, way = np.array([[ax], [ay]]), np.array([[bx - ax], [by - ay]])
        share = np.clip(((mesh.p - a) * way).sum(0) / (way**2).sum(), 0, 1)
        held |= np.linalg.norm(mesh.p - a - way * share, axis=0) < 1e-6
    fixed = basis.nodal_dofs[0, held]
    u = solve(*condense(stiffness.assemble(basis), load.assemble(basis), D=fixed))
    hessian = dd(basis.interpolate(u))
    curvature = hessian.mean(axis=-1)
    middles = mesh.p[:, mesh.t].mean(axis=1)
    found = []
    for place in case["places"]:
        p = np.array(place)
        nearest = np.argmin(np.linalg.norm(mesh.p - p[:, None], axis=0))
        # The mean over the triangles within the radius: Morley's curvature is even in each.
        near = np.linalg.norm(middles - p[:, None], axis=0) < case["radius"]
        k = curvature[:, :, near].mean(axis=-1)
        m = (1 - nu) * k + nu * np.trace(k) * np.eye(2)
        found.append([u[basis.nodal_dofs[0, nearest]], m[0, 0], m[1, 1], m[0, 1]])
    return found


json.dump([bent(case) for case in json.load(sys.stdin)], sys.stdout)
