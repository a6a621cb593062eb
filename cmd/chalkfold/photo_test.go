package main

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"chalkfold/wasm/browser"
)

// entry is an entry of a directory of TIFF 6.0, as Exif has it: its tag, its type, how
// many there are, and the value or where it stands.
func entry(tag, kind uint16, count, value uint32) []byte {
	b := binary.BigEndian.AppendUint16(nil, tag)
	b = binary.BigEndian.AppendUint16(b, kind)
	b = binary.BigEndian.AppendUint32(b, count)
	return binary.BigEndian.AppendUint32(b, value)
}

// fromCamera is a photo as a phone writes it (Exif 2.32, JEITA CP-3451): lying on its
// side, which the orientation 6 says, with its place and a name in it. Upright it is
// red above and blue below.
func fromCamera(t *testing.T, wide, high int) []byte {
	t.Helper()
	m := image.NewRGBA(image.Rect(0, 0, wide, high))
	for y := range high {
		for x := range wide {
			c := color.RGBA{200, 30, uint8(y % 32), 255}
			if x > wide/2 {
				c = color.RGBA{30, 30, 200 - uint8(y%32), 255}
			}
			m.Set(x, y, c)
		}
	}
	var plain bytes.Buffer
	if err := jpeg.Encode(&plain, m, &jpeg.Options{Quality: 95}); err != nil {
		t.Fatal(err)
	}
	// The header, a directory of three entries, one of GPS with two, then what they
	// point to.
	tiff := []byte("MM\x00\x2a\x00\x00\x00\x08")
	const gps, maker, place = 8 + 2 + 3*12 + 4, 8 + 2 + 3*12 + 4 + 2 + 2*12 + 4, 8 + 2 + 3*12 + 4 + 2 + 2*12 + 4 + 16
	tiff = append(tiff, 0, 3)
	tiff = append(tiff, entry(0x010f, 2, 16, maker)...)
	tiff = append(tiff, entry(0x0112, 3, 1, 6<<16)...)
	tiff = append(tiff, entry(0x8825, 4, 1, gps)...)
	tiff = append(tiff, 0, 0, 0, 0, 0, 2)
	tiff = append(tiff, entry(0x0001, 2, 2, uint32('N')<<24)...)
	tiff = append(tiff, entry(0x0002, 5, 3, place)...)
	tiff = append(tiff, 0, 0, 0, 0)
	tiff = append(tiff, "Stall of Amina\x00\x00"...)
	for _, n := range []uint32{6, 1, 27, 1, 1234, 100} { // 6° 27′ 12.34″
		tiff = binary.BigEndian.AppendUint32(tiff, n)
	}
	body := append([]byte("Exif\x00\x00"), tiff...)
	segment := binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(body)+2))
	out := append([]byte{0xff, 0xd8}, segment...)
	out = append(out, body...)
	return append(out, plain.Bytes()[2:]...)
}

// keptPhotos are the pictures that the browser keeps, as bytes, by what their records
// say.
const keptPhotos = `(async () => {
	const ask = (r) => new Promise((done, failed) => { r.onsuccess = () => done(r.result); r.onerror = () => failed(r.error); });
	const db = await ask(indexedDB.open("chalkfold"));
	const records = (await ask(db.transaction("records").objectStore("records").getAll())).filter((r) => r.kind === "photo" && !r.deleted)
		.map((r) => new TextDecoder().decode(r.data));
	const base64 = (bytes) => btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(""));
	const blobs = db.transaction("blobs").objectStore("blobs");
	const names = await ask(blobs.getAllKeys());
	const all = await ask(blobs.getAll());
	db.close();
	return { records, pictures: Object.fromEntries(names.map((name, i) => [name, base64(all[i])])) };
})()`

type keptInBrowser struct {
	Records  []string
	Pictures map[string][]byte
}

// photograph hands a file to the input of a stage, as the camera does, and waits until
// so many photos are shown there.
func photograph(tab *browser.Tab, id, file, until string) {
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("photo-take-"+id), []string{file}))
	tab.Until(until)
}

func photosShown(id string, n string) string {
	return `document.querySelectorAll("#photos-` + id + ` .photo").length === ` + n + ` && document.querySelector("#photo-told-` + id + `").hidden`
}

// TestPhoto is the way of a photo: taken at the fitting, small enough, upright and
// without its place; looked at, noted, moved, deleted, recovered; in the backup file,
// and back on a phone that was wiped.
func TestPhoto(t *testing.T) {
	s := openStall(t)
	tab := browser.Open(t, "").Tab()
	dir := t.TempDir()
	camera := fromCamera(t, 2400, 1800)
	for _, mark := range []string{"Exif", "Stall of Amina"} {
		if !bytes.Contains(camera, []byte(mark)) {
			t.Fatalf("%q is not in what the camera writes", mark)
		}
	}
	file := filepath.Join(dir, "IMG_1.jpg")
	if err := os.WriteFile(file, camera, 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	turnTo(tab, "fitting")
	scrolledTo(tab, "#photos-fitting")
	shot(t, tab, "photo-none")
	photograph(tab, "fitting", file, photosShown("fitting", "1"))
	scrolledTo(tab, "#photos-fitting")
	fits(t, tab, "photo-fitting")

	kept := browser.Eval[keptInBrowser](tab, keptPhotos)
	if len(kept.Records) != 1 || len(kept.Pictures) != 1 {
		t.Fatalf("%d photos are kept, %d pictures", len(kept.Records), len(kept.Pictures))
	}
	for _, jpg := range kept.Pictures {
		m, err := jpeg.Decode(bytes.NewReader(jpg))
		if err != nil {
			t.Fatal(err)
		}
		if b := m.Bounds(); b.Dx() != 960 || b.Dy() != 1280 {
			t.Errorf("it is %d by %d, want it upright, 960 by 1280", b.Dx(), b.Dy())
		}
		if r, _, b, _ := m.At(480, 100).RGBA(); r < 2*b {
			t.Error("what is above is not red")
		}
		if r, _, b, _ := m.At(480, 1200).RGBA(); b < 2*r {
			t.Error("what is below is not blue")
		}
		for _, mark := range []string{"Exif", "Stall", "MM\x00\x2a", "http://ns.adobe.com"} {
			if bytes.Contains(jpg, []byte(mark)) {
				t.Errorf("%q is still in the picture", mark)
			}
		}
		if len(jpg) > 400_000 || len(jpg) >= len(camera) {
			t.Errorf("it has %d bytes of %d", len(jpg), len(camera))
		}
	}

	// What is no picture is refused in words.
	bad := filepath.Join(dir, "IMG_2.jpg")
	if err := os.WriteFile(bad, []byte("no picture"), 0o600); err != nil {
		t.Fatal(err)
	}
	photograph(tab, "fitting", bad, `document.querySelector("#photo-told-fitting").textContent.includes("cannot read this picture")`)
	fits(t, tab, "photo-refused")

	tap(tab, "#photos-fitting .photo")
	tab.Until(`document.querySelector(".photo-page .paper image")`)
	tab.Until(`document.querySelector(".photo-page .paper image").getAttribute("href").length > 20_000`)
	tab.Do(chromedp.SendKeys(chromedp.ID("photo-note"), "drag at the back waist"))
	fits(t, tab, "photo-page")
	press(tab, "Cloth") // it shows the cloth
	tab.Until(`document.querySelector(".photo-page strong").textContent.startsWith("Cloth")`)
	tap(tab, "#photo-close")
	tab.Until(savedAs("Alto 3") + ` && document.querySelectorAll("#photos-fitting .photo").length === 0`)
	turnTo(tab, "cloth")
	tap(tab, "#cloth-photos")
	tab.Until(photosShown("cloth", "1"))
	photograph(tab, "cloth", file, photosShown("cloth", "2"))
	scrolledTo(tab, "#photos-cloth")
	fits(t, tab, "photo-cloth")
	turnTo(tab, "book")
	tap(tab, "#details")
	tab.Until(photosShown("job", "2"))
	scrolledTo(tab, "#photos-job")
	fits(t, tab, "photo-book")
	scrolledTo(tab, "#keep")
	tab.Until(`/^2 photos, 0\.\d MB$/.test(document.querySelector("#photos-used").textContent)`)
	fits(t, tab, "photo-keep")

	// The file with both, and the wiped phone.
	was := browser.Eval[keptInBrowser](tab, keptPhotos)
	backup := saveBackup(t, tab)
	tab.Until(`document.querySelector("#told").textContent.includes("Handed over")`)
	wipe(tab)
	tab.Goto(s.url("/?wiped#book"))
	tab.Until(`document.querySelector("#keep") && ` + tickets + ` === ""`)
	name := filepath.Join(dir, "backup.json")
	if err := os.WriteFile(name, backup, 0o600); err != nil {
		t.Fatal(err)
	}
	tab.Do(chromedp.SetUploadFiles(chromedp.ID("backup-file"), []string{name}))
	tab.Until(`document.querySelector("#found:not([hidden])")?.textContent.includes("With the pictures of 2 photos.")`)
	press(tab, "Merge")
	tab.Until(tickets + ` === "Alto 3" && /^2 photos/.test(document.querySelector("#photos-used").textContent)`)
	is := browser.Eval[keptInBrowser](tab, keptPhotos)
	if strings.Join(is.Records, "\n") != strings.Join(was.Records, "\n") || len(is.Pictures) != 2 {
		t.Errorf("the photos came back as\n%s\nwere\n%s", is.Records, was.Records)
	}
	for name, jpg := range was.Pictures {
		if !bytes.Equal(is.Pictures[name], jpg) {
			t.Errorf("picture %s came back as another", name)
		}
	}

	// Deleted and recovered.
	tap(tab, "#details")
	tab.Until(photosShown("job", "2"))
	tap(tab, "#photos-job .photo")
	tab.Until(`document.querySelector("#photo-delete")`)
	tap(tab, "#photo-delete")
	tab.Until(`document.querySelector("#photo-delete").textContent.startsWith("Yes")`)
	tap(tab, "#photo-delete")
	tab.Until(`document.querySelectorAll("#photos-job .photo").length === 1`)
	press(tab, "Deleted")
	tab.Until(`document.querySelector("#deleted .job")?.textContent.includes("Photo: Cloth")`)
	fits(t, tab, "photo-deleted")
	tap(tab, "#deleted .job button")
	tab.Until(`!document.querySelector("#deleted .job") && document.querySelector("#saving").textContent === "Saved"`)
	tab.Goto(s.url("/?again#fitting"))
	tab.Until(`document.querySelector("#photos-fitting")`)
	turnTo(tab, "book")
	tap(tab, "#details")
	tab.Until(photosShown("job", "2"))
	noProblems(t, tab)
}

// TestPhotoNoRoom: a photo for which there is no room is said, stays on the page, and is
// kept when there is room; nothing else is lost.
func TestPhotoNoRoom(t *testing.T) {
	s := openStall(t)
	profile := t.TempDir()
	b := browser.Open(t, profile)
	tab := b.Tab()
	tab.Goto(s.url("/"))
	press(tab, "Open the sample")
	tab.Until(savedAs("Alto 3"))
	tab.Until(readyOffline)
	b.Close() // it remembers for a while how much room there was

	tab = browser.Open(t, profile).Tab()
	none := 1.0
	tab.Goto(s.url("/icon.svg"))
	allow(tab, s, &none)
	tab.Goto(s.url("/#fitting"))
	tab.Until(`document.querySelector("#photos-fitting")`)
	file := filepath.Join(t.TempDir(), "IMG_1.jpg")
	if err := os.WriteFile(file, fromCamera(t, 800, 600), 0o600); err != nil {
		t.Fatal(err)
	}
	photograph(tab, "fitting", file, `document.querySelector("#photo-told-fitting").textContent.includes("no room left on this device for the photo")`)
	scrolledTo(tab, "#photos-fitting")
	fits(t, tab, "photo-full")
	if kept := browser.Eval[keptInBrowser](tab, keptPhotos); len(kept.Records)+len(kept.Pictures) > 0 {
		t.Errorf("%d records and %d pictures are kept of it", len(kept.Records), len(kept.Pictures))
	}
	allow(tab, s, nil)
	tap(tab, "#photo-again-fitting")
	tab.Until(photosShown("fitting", "1"))
	if kept := browser.Eval[keptInBrowser](tab, keptPhotos); len(kept.Records) != 1 || len(kept.Pictures) != 1 {
		t.Errorf("%d records and %d pictures are kept", len(kept.Records), len(kept.Pictures))
	}
}
