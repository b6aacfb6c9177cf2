#!/bin/sh
# Runs one share of a sweep for each task of a cluster's job array. The arguments are those of rollride sweep:
#   Slurm:  sbatch docs/sweep-array.sh scenarios/sweep-load-states.json --out results
#   PBS:    qsub -J 1-8 -- /bin/sh "$PWD/docs/sweep-array.sh" scenarios/sweep-load-states.json --out results
# Build once before (dotnet build RollRide.sln -c Release). SHARES is the number of tasks in the array. A task that was killed can be submitted again: it goes on where it was.
# When all tasks are done, rollride merge joins the shares.
#SBATCH --array=1-8
#SBATCH --ntasks=1
set -eu

SHARES=${SHARES:-8}
ROLLRIDE=${ROLLRIDE:-dotnet src/RollRide.Cli/bin/Release/net10.0/RollRide.Cli.dll}
index=${SLURM_ARRAY_TASK_ID:-${PBS_ARRAY_INDEX:?this is not a task of a job array}}

cd "${SLURM_SUBMIT_DIR:-${PBS_O_WORKDIR:-.}}"
# shellcheck disable=SC2086 # the command may have arguments of its own
exec $ROLLRIDE sweep "$@" --part "$index/$SHARES" --resume
