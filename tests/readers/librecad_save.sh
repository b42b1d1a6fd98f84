#!/bin/sh
# Run in a virtual display: open the file $1 in LibreCAD, draw a line, save as it is, end.
# LibreCAD writes what it holds in memory; the file as it was stays beside it as $1~.
mkdir -p "$HOME/.config/LibreCAD"
printf '[Startup]\nFirstLoad=0\n' >"$HOME/.config/LibreCAD/LibreCAD.conf" # else it asks for units
librecad "$1" &
program=$!
tries=0
while [ ! -e "$1~" ] && [ "$tries" -lt 60 ]; do
    tries=$((tries + 1))
    sleep 0.5
    window=$(xdotool search --onlyvisible --name "$(basename "$1")" | head -n 1)
    [ -n "$window" ] || continue
    xdotool windowfocus "$window" key --window "$window" Escape space
    for words in line 10,10 11,10; do
        xdotool type --window "$window" "$words"
        xdotool key --window "$window" Return
    done
    xdotool key --window "$window" Escape Escape ctrl+s
done
size=-1
while [ "$size" != "$(stat -c %s "$1")" ]; do # until it is written to the end
    size=$(stat -c %s "$1")
    sleep 0.5
done
kill "$program"
wait "$program"
[ -e "$1~" ]
