"""Attribution of runout done with NumPy and SciPy, by other routes than the program's: the model is written out anew, the
evidence is SciPy's density of the readings under each assumption's covariance, the errors come from ordinary least
squares on the whitened readings with the beliefs as further observations."""

import itertools

import numpy as np
from scipy import stats

OFFSET, TILT, LARGE_OFFSET, LARGE_TILT, LARGE_TILT_BROAD = 5e-6, 1e-4, 50e-6, 2e-3, 5e-4
BROAD = {"bent-shaft", "face-out-of-square", "bracket-out-of-square", "dirt-under-bracket"}
NOTHING, ONE, TWO, LOOSE = 0.5, 0.4, 0.1, 0.5
# name, part, tilt, seating, weight
ROTATING = [("bent-shaft", 0, True, False, 1), ("shaft-off-axis", 0, False, False, 1),
            ("sleeve-off-centre", 1, False, False, 1), ("sleeve-out-of-square", 1, True, False, 1),
            ("sleeve-not-home", 1, True, True, 2), ("impeller-off-centre", 2, False, False, 1),
            ("impeller-out-of-square", 2, True, False, 1), ("impeller-not-home", 2, True, True, 2)]
STANDING = [("register-off-centre", 0, False, False, 1), ("face-out-of-square", 0, True, False, 1),
            ("bracket-off-centre", 1, False, False, 1), ("bracket-out-of-square", 1, True, False, 1),
            ("dirt-under-bracket", 1, True, True, 2), ("seat-out-of-square", 2, True, False, 1)]


def rotating_row(part, face, at, radius, bend, sleeve_seat, impeller_seat):
    """What a station sees of each error of what turns."""
    tilt_from = {0: bend, 1: sleeve_seat, 2: impeller_seat}

    def seen(of, tilt):
        if of > part or (of == 1 and part == 2 and not tilt):
            return 0.0
        if face:
            return -radius if tilt else 0.0
        if not tilt:
            return 1.0
        return at - (impeller_seat if of == 1 and part == 2 else tilt_from[of])

    return [seen(of, tilt) for _, of, tilt, _, _ in ROTATING]


def standing_row(part, face, at, radius, seat):
    def seen(of, tilt):
        if of > part or (part == 0 and not face and tilt):
            return 0.0
        if face:
            return -radius if tilt else 0.0
        return (at - (seat if of == 2 else 0.0)) if tilt else 1.0

    return [seen(of, tilt) for _, of, tilt, _, _ in STANDING]


class Case:
    """rows: part, face, at, radius, re, im, c00, c01, c10, c11 for each station."""

    def __init__(self, rows, faults, row_of):
        rows = np.asarray(rows).reshape(-1, 10)
        n = len(rows)
        seen = np.array([row_of(int(r[0]), bool(r[1]), r[2], r[3]) for r in rows])
        seen = np.hstack([seen, np.eye(n)])
        self.names = [f[0] for f in faults] + ["indicator-loose"] * n
        self.u = np.kron(seen, np.eye(2))
        self.y = rows[:, 4:6].ravel()
        self.noise = np.zeros((2 * n, 2 * n))
        for k, r in enumerate(rows):
            self.noise[2 * k:2 * k + 2, 2 * k:2 * k + 2] = r[6:10].reshape(2, 2)
        self.small = np.array([0 if f[3] else TILT if f[2] else OFFSET for f in faults] + [0] * n) ** 2
        self.large = np.array([(LARGE_TILT_BROAD if f[0] in BROAD else LARGE_TILT) if f[2] else LARGE_OFFSET for f in faults] + [LARGE_OFFSET] * n) ** 2
        weight = np.array([f[4] for f in faults] + [LOOSE] * n, float) * (np.abs(seen).sum(axis=0) > 0)
        usable = np.flatnonzero(weight)
        pairs = list(itertools.combinations(usable, 2))
        self.assumptions = [()] + [(i,) for i in usable] + pairs
        two = [weight[i] * weight[j] for i, j in pairs]
        self.prior = np.array([NOTHING] + [ONE * weight[i] / weight.sum() for i in usable] +
                              [TWO * w / sum(two) for w in two])

    def spread(self, at_fault):
        s = self.small.copy()
        s[list(at_fault)] = self.large[list(at_fault)]
        return np.repeat(s, 2)

    def probabilities(self):
        log = np.array([stats.multivariate_normal.logpdf(
            self.y, cov=self.noise + (self.u * self.spread(a)) @ self.u.T) for a in self.assumptions])
        log += np.log(self.prior)
        p = np.exp(log - log.max())
        return p / p.sum()

    def errors(self, at_fault):
        """Mean and covariance of every error, by least squares on whitened rows."""
        s = self.spread(at_fault)
        free = np.flatnonzero(s)
        scale = np.sqrt(s[free])
        white = np.linalg.inv(np.linalg.cholesky(self.noise))
        a = np.vstack([white @ self.u[:, free] * scale, np.eye(len(free))])
        b = np.concatenate([white @ self.y, np.zeros(len(free))])
        q, r = np.linalg.qr(a)
        inverse = np.linalg.inv(r)
        mean, covariance = np.zeros(len(s)), np.zeros((len(s), len(s)))
        mean[free] = scale * (inverse @ (q.T @ b))
        covariance[np.ix_(free, free)] = (inverse @ inverse.T) * np.outer(scale, scale)
        return mean, covariance

    def batched(self):
        """All assumptions at once, as NumPy is quickest; then the errors under the best."""
        spread = np.stack([self.spread(a) for a in self.assumptions])
        c = self.noise + np.einsum("ij,hj,kj->hik", self.u, spread, self.u, optimize=True)
        half = np.linalg.cholesky(c)
        z = np.linalg.solve(half, np.broadcast_to(self.y[:, None], (len(c), len(self.y), 1)))[..., 0]
        log = np.log(self.prior) - 0.5 * (z * z).sum(axis=1) - np.log(np.einsum("hii->hi", half)).sum(axis=1)
        p = np.exp(log - log.max())
        p /= p.sum()
        best = self.assumptions[int(np.argmax(p))]
        return p, best, self.errors(best)


def case_of(kind, rows):
    """The rotating or standing case of the tests: places of their synthetic pump."""
    if kind == "rotating":
        return Case(rows, ROTATING, lambda *s: rotating_row(*s, 0.0, 0.035, 0.073))
    return Case(rows, STANDING, lambda *s: standing_row(*s, 0.038))


def report(kind, rows):
    """Probabilities of the three likeliest, their first error, then mean and covariance of the best's errors."""
    case = case_of(kind, rows)
    p = case.probabilities()
    order = np.argsort(-p, kind="stable")
    best = case.assumptions[order[0]]
    mean, covariance = case.errors(best)
    words = [repr(float(p[i])) for i in order[:3]]
    words += [case.names[case.assumptions[i][0]] if case.assumptions[i] else "nothing" for i in order[:2]]
    for j in best:
        block = covariance[2 * j:2 * j + 2, 2 * j:2 * j + 2]
        words += [repr(float(v)) for v in (*mean[2 * j:2 * j + 2], *block.ravel())]
    return words
