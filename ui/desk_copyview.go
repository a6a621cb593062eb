package ui

import (
	"encoding/base64"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/qr"
	"chalkfold/sync/client"
	"chalkfold/sync/seal"
	"chalkfold/ui/day"
	"chalkfold/ui/kit"
	"chalkfold/ui/second"
)

// copyViewed is how the second copy is looked at.
type copyViewed struct {
	step   second.Step
	key    seal.Key // to begin or to move with
	moving bool     // the key takes the place of another
	asked  []int
	typed  []string
	wrong  string
	list   []string
	code   string
	beside bool
	told   string
	camera string // what is wrong with it
}

// What begins the fragment of an address that pairs a phone: over the server, and
// side by side.
const (
	pairingWords = "pair="
	pairingKey   = "hand="
)

// pairingIn is what pairs a phone in a text: an address, its fragment, or what was typed.
func pairingIn(text string) (string, bool) {
	if _, words, ok := strings.Cut(text, pairingWords); ok {
		return strings.ReplaceAll(words, "-", " "), true
	}
	if _, key, ok := strings.Cut(text, pairingKey); ok {
		return pairingKey + key, true
	}
	return text, false
}

// hearPairing looks whether an address, or a text that was pasted or read by the camera,
// pairs this phone with another. It only fills in the field: the maker joins.
func (d *Desk) hearPairing(text string) bool {
	pairing, ok := pairingIn(text)
	if !ok || d.deps.Line == nil {
		return false
	}
	d.view.copy = copyViewed{step: second.Join, typed: []string{pairing}}
	return true
}

// scanPairing looks with the camera for the code of another phone, or stops.
func (d *Desk) scanPairing() {
	v := &d.view.copy
	v.camera = ""
	d.scan(second.VideoID, func(text string) {
		switch text {
		case scanRefused:
			v.camera = d.T("The camera was not allowed. Allow it in the browser's settings of this page, or type the words.")
		case scanFault:
			v.camera = d.T("The camera does not work here. Type the words.")
		default:
			if !d.hearPairing(text) {
				v.camera = d.T("This is no pairing code, or not the whole of it.")
			}
		}
	})
}

// copyStep is the step that the screen is at.
func (d *Desk) copyStep() second.Step {
	begun := d.copying.client != nil && d.copying.client.Begun()
	switch s := d.view.copy.step; {
	case s == second.Offer && begun:
		return second.Begun
	case s == second.Begun && !begun:
		return second.Offer
	default:
		return s
	}
}

// copyView fills the screen.
func (d *Desk) copyView() *second.View {
	v := &d.view.copy
	return &second.View{
		Words: d.Words, Step: d.copyStep(), Busy: d.copying.asked > 0 || d.copying.client == nil, Passing: d.copying.passing, Told: v.told,
		List: v.list, Asked: v.asked, Typed: v.typed, Wrong: v.wrong, Code: v.code, Beside: v.beside,
		Account: d.sayAccount(), Fault: d.sayCopyFault(d.copying.err), Conflicts: d.sayConflicts(), NoServer: d.copying.none,
		Scans: d.browser.Scans, Scanning: d.scanning != nil, Camera: v.camera, OnScan: d.scanPairing,
		OnStart: func() { d.newWords(false) },
		OnJoin:  func() { *v = copyViewed{step: second.Join, typed: []string{""}} },
		OnWritten: func() {
			v.step, v.asked, v.typed = second.Repeat, d.someWords(), []string{"", "", ""}
		},
		OnRepeat: d.repeatWords, OnEnter: d.enterWords, OnBack: d.copyBack,
		OnType: func(field int, text string) { v.typed[field] = text },
		OnCopy: d.passSoon, OnPair: d.offerCode, OnBeside: d.showHandover,
		OnWords: func() { *v = copyViewed{step: second.Pair, list: d.copying.client.Key().Words()} },
		OnOff:   func() { *v = copyViewed{step: second.Off} },
		OnMove:  func() { d.newWords(true) },
		OnSave:  d.saveCopy, OnTake: func() { kit.ChooseFile(second.FileID) }, OnFile: d.takeCopy,
		PhotosAsked: d.settings.PhotosAsked, Photos: d.photosToSend(), OnSend: d.sendPhotos,
		OnPhotos: func(asked bool) {
			d.set(func(s *Settings) { s.PhotosAsked = asked })
			if !asked {
				d.passSoon()
			}
		},
		OnForget: d.forgetCopy, OnChoose: func(i, n int) { d.settleDiffering(d.differing()[i], n) },
	}
}

// photosToSend is the key that sends the photos that wait to be asked for; "" where
// none does.
func (d *Desk) photosToSend() string {
	n := d.photoCount
	if !d.settings.PhotosAsked || n.here == 0 || d.copying.photosNow {
		return ""
	}
	return d.N(n.here, "Send %d photo now, %s", "Send %d photos now, %s", d.megabytes(n.hereBytes))
}

// sendPhotos has them sent with the next pass, which is now.
func (d *Desk) sendPhotos() {
	d.copying.photosNow = true
	d.passSoon()
}

// copyBack goes back a step. What was asked for is given up, if it waits for the server.
func (d *Desk) copyBack() {
	v := &d.view.copy
	if d.copying.asked > 0 {
		d.copying.line.yield()
	}
	d.stopScan()
	if v.step == second.Repeat {
		v.step = second.Write
		return
	}
	*v = copyViewed{}
}

// newWords makes a key and shows its words.
func (d *Desk) newWords(moving bool) {
	key := seal.NewKey(d.deps.Random)
	d.view.copy = copyViewed{step: second.Write, key: key, moving: moving, list: key.Words()}
}

// someWords are the numbers of three words, in their order.
func (d *Desk) someWords() []int {
	var some []int
	for len(some) < 3 {
		var b [1]byte
		d.deps.Random(b[:])
		if n := int(b[0])%seal.KeyWords + 1; !slices.Contains(some, n) {
			some = append(some, n)
		}
	}
	slices.Sort(some)
	return some
}

// repeatWords begins, or moves, once the words that were asked for are right.
func (d *Desk) repeatWords() {
	v := &d.view.copy
	for i, n := range v.asked {
		if strings.ToLower(strings.TrimSpace(v.typed[i])) != v.list[n-1] {
			v.wrong = d.F("Word %d on this screen is another. Look at your paper, or show the words again.", n)
			return
		}
	}
	key, moving, c := v.key, v.moving, d.copying.client
	d.copyAsk(func() error {
		if moving {
			return c.Move(d.ctx, key)
		}
		return c.Begin(d.ctx, key)
	}, d.copyBegun)
}

// copyBegun shows that there is a copy, and brings it up to date.
func (d *Desk) copyBegun(err error) {
	if err != nil {
		d.view.copy.wrong = d.sayCopyFault(err)
		return
	}
	d.view.copy = copyViewed{step: second.Begun}
	d.copying.err = nil
	d.hush()
	d.hearWaking()
	d.copyWoken()
}

// enterWords joins the phones whose code or words were entered.
func (d *Desk) enterWords() {
	v := &d.view.copy
	text, c := strings.TrimSpace(v.typed[0]), d.copying.client
	v.wrong = ""
	d.copyAsk(func() error {
		key, err := d.keyOf(text)
		if err != nil {
			return err
		}
		return c.Begin(d.ctx, key)
	}, d.copyBegun)
}

// keyOf reads a key in whatever form it was entered.
func (d *Desk) keyOf(text string) (seal.Key, error) {
	text, _ = pairingIn(text)
	if handed, ok := strings.CutPrefix(text, pairingKey); ok {
		return seal.ReadHandover(handed, d.now())
	}
	code, err := seal.ReadCode(text)
	if err == nil {
		return client.Accept(d.ctx, d.copying.line, code)
	}
	var words *seal.WordsError
	if errors.As(err, &words) && words.Have == words.Want {
		return seal.Key{}, err
	}
	return seal.ReadWords(text)
}

// offerCode shows a code for another phone, once the server has the parcel.
func (d *Desk) offerCode() {
	code, c := seal.NewCode(d.deps.Random), d.copying.client
	d.copyAsk(func() error { return c.Offer(d.ctx, code) }, func(err error) {
		if err != nil {
			d.view.copy = copyViewed{told: d.sayCopyFault(err)}
			d.showHandover()
			return
		}
		words := code.Words()
		d.view.copy = copyViewed{step: second.Pair, list: words, code: d.picture(pairingWords + strings.Join(words, "-"))}
	})
}

// showHandover shows the key as a code, for a phone side by side.
func (d *Desk) showHandover() {
	text := seal.Handover(d.copying.client.Key(), d.now())
	told := d.view.copy.told
	d.view.copy = copyViewed{step: second.Pair, beside: true, told: told, code: d.picture(pairingKey + text)}
	d.ctx.After(seal.HandoverTime*time.Millisecond, func(app.Context) {
		if d.view.copy.beside {
			d.view.copy = copyViewed{}
		}
	})
}

// picture is an address with that fragment as a code.
func (d *Desk) picture(fragment string) string {
	c, err := qr.Of(address() + "#" + fragment)
	if err != nil {
		return ""
	}
	return c.SVG()
}

// copyFile is the name of the file that carries the copy.
const copyFile = "chalkfold-second-copy.txt"

// saveCopy hands over the sealed copy as a file of letters.
func (d *Desk) saveCopy() {
	c := d.copying.client
	var file []byte
	d.copyAsk(func() (err error) {
		file, err = c.Bundle(d.ctx)
		return err
	}, func(err error) {
		if err != nil {
			d.view.copy.told = d.sayCopyFault(err)
			return
		}
		d.hand(copyFile, "text/plain", []byte(base64.StdEncoding.EncodeToString(file)), false, func(bool) {
			d.view.copy.told = d.F("Handed over as %s. Take it in on the other phone.", copyFile)
		})
	})
}

// takeCopy takes in the file of another phone.
func (d *Desk) takeCopy(text string) {
	c := d.copying.client
	taken := 0
	d.copyAsk(func() error {
		file, err := base64.StdEncoding.DecodeString(strings.TrimSpace(text))
		if err != nil {
			return client.ErrNoBundle
		}
		taken, err = c.Take(d.ctx, file)
		return err
	}, func(err error) {
		if err != nil {
			d.view.copy.told = d.sayCopyFault(err)
			return
		}
		d.view.copy.told = d.N(taken, "Taken in: %d record.", "Taken in: %d records.")
	})
}

// forgetCopy stops copying on this phone.
func (d *Desk) forgetCopy() {
	c := d.copying.client
	d.copyAsk(func() error { return c.Leave(d.ctx) }, func(err error) {
		d.hush()
		d.copying.err, d.copying.conflicts = err, nil
		d.view.copy = copyViewed{told: d.T("This phone copies no more. Everything on it stays, and so does the copy on the server.")}
	})
}

// sayAccount says what is where.
func (d *Desk) sayAccount() []string {
	a := d.copying.account
	if !a.Known {
		return []string{d.T("Looking at what is here…")}
	}
	lines := []string{
		d.N(a.Both, "On the server too: %d record.", "On the server too: %d records."),
		d.N(a.Here, "On this phone only: %d record.", "On this phone only: %d records."),
	}
	if n := d.photoCount; n.here+n.shared > 0 {
		lines = append(lines, d.F("Photos with a copy on the server: %d. Photos only on this phone: %d (%s).", n.shared, n.here, d.megabytes(n.hereBytes)))
	}
	if a.Even > 0 {
		at := time.UnixMilli(a.Even).Local()
		lines = append(lines, d.F("All alike on %s at %s.", day.Of(at).Text(d.Words), clockTime(at)))
	}
	if a.Later > 0 {
		lines = append(lines, d.N(a.Later, "%d record is of a newer version: reload the page.", "%d records are of a newer version: reload the page."))
	}
	if a.TooLarge > 0 {
		lines = append(lines, d.N(a.TooLarge, "%d record is too large to be copied.", "%d records are too large to be copied."))
	}
	if a.Strange > 0 {
		lines = append(lines, d.N(a.Strange, "%d sealed record did not open: it was damaged on its way, and is sent again by the phone that has it.", "%d sealed records did not open: they were damaged on their way, and are sent again by the phone that has them."))
	}
	return append(lines, d.F("Sent so far: %s. Fetched: %s.", d.bytes(a.Up), d.bytes(a.Down)))
}

// bytes is an amount of data in words.
func (d *Desk) bytes(n uint64) string {
	if n < 1_000_000 {
		return d.F("%d kB", int((n+999)/1000))
	}
	tenths := strconv.FormatUint(n/1_000_000, 10) + "." + strconv.FormatUint(n/100_000%10, 10)
	return d.F("%s MB", d.Decimal(tenths))
}

// clockTime is a time of day.
func clockTime(t time.Time) string {
	return strconv.Itoa(100 + t.Hour())[1:] + ":" + strconv.Itoa(100 + t.Minute())[1:]
}

// sayCopied says in the book how the second copy stands.
func (d *Desk) sayCopied() string {
	a := d.copying.account
	switch {
	case d.deps.Line == nil || d.store == nil:
		return ""
	case d.copying.client == nil || !d.copying.client.Begun():
		return d.T("None. What is here is on this phone only.")
	case d.copying.err != nil:
		return d.sayCopyFault(d.copying.err)
	case !a.Known:
		return d.T("Looking at what is here…")
	case len(d.differing()) > 0:
		return d.T("Two phones measured differently: choose there what counts.")
	case a.Here > 0:
		return d.N(a.Here, "%d record is on this phone only.", "%d records are on this phone only.")
	case d.photoCount.here > 0:
		return d.N(d.photoCount.here, "%d photo is on this phone only.", "%d photos are on this phone only.")
	}
	return d.T("Everything is on the server too.")
}
