// Command teach makes the reader's weights from what people send, and measures
// how well messages are read.
//
//	go run ./cmd/teach -out parser/read/weights.gz   teach from testdata/asks, and write the weights
//	go run ./cmd/teach coverage                      is there a reading that agrees with each message?
//	go run ./cmd/teach -of blind measure             how well are the blind writers' messages answered?
//	go run ./cmd/teach -of blind likeliest           how often is the likeliest reading right?
//	go run ./cmd/teach -of blind calibration         the same by its probability
//
// With -show FILE it prints what fails of the files with that in their name.
package main

import (
	"errors"
	"flag"
	"fmt"
	"log"

	"dogleg/parser/read"
)

func main() {
	log.SetFlags(0)
	if err := run(); err != nil {
		log.Fatal(err)
	}
}

func run() error {
	dir := flag.String("asks", "testdata/asks", "where the messages are")
	show := flag.String("show", "", "print what fails of files with this in their name")
	out := flag.String("out", "", "where the weights go")
	of := flag.String("of", train, "the part that is looked at")
	leastRight := flag.Float64("right", 0, "measure fails where fewer are right at once, in percent")
	mostWrong := flag.Float64("wrong", 100, "measure fails where more are figured wrong, in percent")
	flag.Parse()
	byPart, err := corpus(*dir)
	if err != nil {
		return err
	}
	in := byPart[*of]
	if len(in) == 0 {
		return fmt.Errorf("no messages in part %q", *of)
	}
	switch flag.Arg(0) {
	case "coverage":
		coverage(in, *show)
	case "likeliest":
		likeliest(read.Learned(), in, *show)
	case "calibration":
		calibration(in)
	case "measure":
		if right, wrong := answered(in, *show); right < *leastRight || wrong > *mostWrong {
			return fmt.Errorf("right %.1f %% (at least %.1f before), wrong %.1f %% (at most %.1f before)", right, *leastRight, wrong, *mostWrong)
		}
	case "":
		if *out == "" {
			return errors.New("nothing to do: say -out FILE, or what to measure")
		}
		return teach(byPart, *out)
	default:
		return fmt.Errorf("there is no %q to do", flag.Arg(0))
	}
	return nil
}
