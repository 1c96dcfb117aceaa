#!/bin/sh
# Checks every recipe of a repository. Meant for a CI job; works anywhere.
#
# usage: check-recipes.sh [FOLDER]      the current folder, unless one is given
#
# QUERN names the compiler when it is not on the PATH. The status is the
# compiler's own: 0 when all is well, anything else fails the job.
set -eu

quern=${QUERN:-quern}
folder=${1:-.}

if ! command -v "$quern" >/dev/null; then
    echo "check-recipes: cannot find '$quern'; install it or set QUERN" >&2
    exit 2
fi
# A relative path in QUERN must still hold after the change of folder.
quern=$(command -v "$quern")
case $quern in /*) ;; *) quern=$PWD/$quern ;; esac

cd "$folder"
exec "$quern" check --strict .
