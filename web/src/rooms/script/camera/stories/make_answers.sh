#!/bin/sh
# The answers of the stories, made by the program itself: run from the checkout.
#   sh web/src/rooms/script/camera/stories/make_answers.sh target/debug/onestrand
program=$1
out=$(dirname "$0")/answers.json
camera() {
  name=$1
  shift
  printf '%s"%s": ' "$comma" "$name"
  "$program" --json camera "$name" "$@"
  comma=,
}
{
  comma=
  printf '{'
  camera field --gauge super8 --lens 12.5 --distance 3m
  camera framing --gauge super8 --size 'medium close' --lens 12.5
  camera depth --gauge super8 --lens 12.5 --stop 2.8 --distance 3m
  camera closeup --gauge super8 --lens 12.5 --dioptres 3
  camera exposure --shutter 150 --speed 18
  camera ev --shutter 150 --speed 18 --iso 50 --ev100 12
  camera filter --from 5500 --to 3400
  camera sun --latitude 52.5 --longitude 13.4 --date 2026-06-21 --hour 15:00 --clock +2
  camera pan --gauge super8 --lens 12.5 --speed 18 --turn 90
  camera flash --stops 1.2 --speed 18
  camera speed --set 18 --bands 319 --bands-frames 1000 --turns 31.5 --turns-frames 1000
  camera wedge --set '-1.5 -1 -0.5 0 0.5 1 1.5 2' \
    --light '-5.72 -4.96 -4.21 -3.5 -2.7 -1.98 -1.1 -0.75'
  printf '}'
} > "$out"
cd "$(dirname "$out")" && npx prettier --write answers.json > /dev/null
