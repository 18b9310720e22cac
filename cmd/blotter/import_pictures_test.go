package main

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	boom "github.com/boombuler/barcode"
	"github.com/boombuler/barcode/code128"
	"github.com/boombuler/barcode/datamatrix"
	"github.com/boombuler/barcode/qr"
	"github.com/rogpeppe/go-internal/testscript"

	"blotter/ledger/pictures/picturestest"
)

// cmdPicture makes a picture of noise, with what the arguments say in it:
//
//	picture FILE [qr=TEXT] [code128=TEXT] [datamatrix=TEXT] [artist=WORDS] [copyright=WORDS]
//	        [taken='2026:03:02 14:05:06'] [offset=+01:00] [at=LAT,LON] [error=METRES] [seed=N]
func cmdPicture(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 1 {
		ts.Fatalf("usage: picture FILE [KEY=VALUE...]")
	}
	file := ts.MkAbs(args[0])
	ts.Check(os.MkdirAll(filepath.Dir(file), 0o777))
	seed := uint64(len(args[0]))
	for _, c := range args[0] {
		seed = seed*31 + uint64(c)
	}
	var said picturestest.Said
	var codes []boom.Barcode
	for _, a := range args[1:] {
		key, value, _ := strings.Cut(a, "=")
		var b boom.Barcode
		var err error
		switch key {
		case "qr":
			b, err = qr.Encode(value, qr.M, qr.Auto)
		case "code128":
			b, err = code128.Encode(value)
		case "datamatrix":
			b, err = datamatrix.Encode(value)
		case "artist":
			said.Artist = value
		case "copyright":
			said.Copyright = value
		case "taken":
			said.Taken = value
		case "offset":
			said.Offset = value
		case "error":
			said.Error, err = strconv.ParseFloat(value, 64)
		case "at":
			lat, lon, _ := strings.Cut(value, ",")
			said.Placed = true
			if said.Lat, err = strconv.ParseFloat(lat, 64); err == nil {
				said.Lon, err = strconv.ParseFloat(lon, 64)
			}
		case "seed":
			seed, err = strconv.ParseUint(value, 10, 64)
		default:
			ts.Fatalf("picture: %s is not known", key)
		}
		ts.Check(err)
		if b != nil {
			codes = append(codes, b)
		}
	}
	m := painted(ts, seed, codes)
	if strings.HasSuffix(file, ".png") {
		f, err := os.Create(file)
		ts.Check(err)
		ts.Check(png.Encode(f, m))
		ts.Check(f.Close())
		return
	}
	data, err := picturestest.JPEG(m, said)
	ts.Check(err)
	ts.Check(os.WriteFile(file, data, 0o666))
}

// painted is a sheet of paper with barcodes below each other.
func painted(ts *testscript.TestScript, seed uint64, codes []boom.Barcode) image.Image {
	m := image.NewGray(image.Rect(0, 0, 560, 80+180*len(codes)))
	r := rand.New(rand.NewPCG(seed, 1))
	for i := range m.Pix {
		m.Pix[i] = uint8(225 + r.IntN(20))
	}
	for i, b := range codes {
		w, h := 3*b.Bounds().Dx(), 3*b.Bounds().Dy()
		if b.Bounds().Dy() == 1 {
			h = 80
		}
		s, err := boom.Scale(b, w, h)
		ts.Check(err)
		at := image.Rect(40, 40+180*i, 40+w, 40+180*i+h)
		draw.Draw(m, at.Inset(-24), image.NewUniform(color.White), image.Point{}, draw.Src)
		draw.Draw(m, at, s, image.Point{}, draw.Src)
	}
	return m
}
