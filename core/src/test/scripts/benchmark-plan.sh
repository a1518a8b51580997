#!/usr/bin/env bash
# Cold starts of the packaged command, in seconds and in times of a Java that says its version on the
# same machine: the plan of the sample, and those of five invented lots of one hectare at cells of
# 0.25 m (hectare_grounds.py), medians of some runs. Needs Python 3 with numpy.
# Usage, from the top of the repository and on an idle machine: benchmark-plan.sh [RUNS]
set -eu
exec "${PYTHON:-/usr/bin/python3}" core/src/test/scripts/benchmark_plan.py "$@"
