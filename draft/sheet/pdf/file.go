package pdf

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf16"

	"chalkfold/draft/sheet"
)

// file is the PDF as it grows: objects numbered from 1 in the order written.
type file struct {
	b    bytes.Buffer
	from []int // where each object begins
}

// The numbers of the objects that others point to. Pages follow firstPage,
// each with its content after it.
const (
	catalog = 1 + iota
	pageTree
	info
	font
	cidFont
	descriptor
	fontFile
	toUnicode
	firstPage
)

func (f *file) document(title string, pages []sheet.Drawing, contents [][]byte, face *face, used map[uint16]rune) {
	// The second line holds bytes over 127, so that the file is carried as
	// binary (ISO 32000-1, 7.5.2).
	f.b.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	f.object(fmt.Sprintf("<</Type/Catalog/Pages %d 0 R/Lang(en)/ViewerPreferences<</PrintScaling/None/PickTrayByPDFSize true/DisplayDocTitle true>>>>", pageTree))
	kids := make([]string, len(pages))
	for i := range pages {
		kids[i] = fmt.Sprintf("%d 0 R", firstPage+2*i)
	}
	f.object(fmt.Sprintf("<</Type/Pages/Count %d/Kids[%s]>>", len(pages), strings.Join(kids, " ")))
	f.object(fmt.Sprintf("<</Title %s/Producer(Chalkfold)>>", textString(title)))
	f.font(face, used)
	for i, p := range pages {
		box := fmt.Sprintf("[0 0 %s %s]", num(p.Bounds.W()*ptPerMM), num(p.Bounds.H()*ptPerMM))
		f.object(fmt.Sprintf("<</Type/Page/Parent %d 0 R/MediaBox%[2]s/CropBox%[2]s/TrimBox%[2]s/Resources<</Font<</F %d 0 R>>>>/Contents %d 0 R>>",
			pageTree, box, font, firstPage+2*i+1))
		f.stream("", contents[i])
	}
	f.end()
}

func (f *file) object(body string) {
	f.from = append(f.from, f.b.Len())
	fmt.Fprintf(&f.b, "%d 0 obj\n%s\nendobj\n", len(f.from), body)
}

func (f *file) stream(entries string, data []byte) {
	var z bytes.Buffer
	w, err := zlib.NewWriterLevel(&z, zlib.BestCompression)
	if err != nil {
		panic("pdf: " + err.Error()) // the level is a constant
	}
	_, _ = w.Write(data) // a Buffer takes every write
	_ = w.Close()
	f.object(fmt.Sprintf("<</Filter/FlateDecode/Length %d%s>>\nstream\n%s\nendstream", z.Len(), entries, z.String()))
}

// end writes where each object begins, and where to start.
func (f *file) end() {
	at := f.b.Len()
	fmt.Fprintf(&f.b, "xref\n0 %d\n0000000000 65535 f \n", len(f.from)+1)
	for _, o := range f.from {
		fmt.Fprintf(&f.b, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&f.b, "trailer\n<</Size %d/Root %d 0 R/Info %d 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(f.from)+1, catalog, info, at)
}

// fontName carries the six letters of an embedded part of a font (ISO 32000-1,
// 9.6.4).
const fontName = "CHALKF+NotoSans-Regular"

func (f *file) font(face *face, used map[uint16]rune) {
	gids := slices.Sorted(maps.Keys(used))
	f.object(fmt.Sprintf("<</Type/Font/Subtype/Type0/BaseFont/%s/Encoding/Identity-H/DescendantFonts[%d 0 R]/ToUnicode %d 0 R>>",
		fontName, cidFont, toUnicode))
	var widths strings.Builder
	for _, g := range gids {
		fmt.Fprintf(&widths, "%d[%d]", g, face.advance(g))
	}
	f.object(fmt.Sprintf("<</Type/Font/Subtype/CIDFontType2/BaseFont/%s/CIDSystemInfo<</Registry(Adobe)/Ordering(Identity)/Supplement 0>>/FontDescriptor %d 0 R/CIDToGIDMap/Identity/DW %d/W[%s]>>",
		fontName, descriptor, face.advance(0), widths.String()))
	f.object(fmt.Sprintf("<</Type/FontDescriptor/FontName/%s/Flags 32/FontBBox[%d %d %d %d]/ItalicAngle 0/Ascent %d/Descent %d/CapHeight 714/StemV 80/FontFile2 %d 0 R>>",
		fontName, face.box[0], face.box[1], face.box[2], face.box[3], face.ascent, face.descent, fontFile))
	f.stream(fmt.Sprintf("/Length1 %d", len(face.data)), face.data)
	f.stream("", unicodeMap(gids, used))
}

// unicodeMap writes the map from glyphs to text that makes pages searchable
// (ISO 32000-1, 9.10.3); a block holds at most 100 entries.
func unicodeMap(gids []uint16, used map[uint16]rune) []byte {
	var b bytes.Buffer
	b.WriteString("/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n" +
		"/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n" +
		"/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n" +
		"1 begincodespacerange\n<0000> <ffff>\nendcodespacerange\n")
	for block := range slices.Chunk(gids, 100) {
		fmt.Fprintf(&b, "%d beginbfchar\n", len(block))
		for _, g := range block {
			fmt.Fprintf(&b, "<%04x> <", g)
			for _, u := range utf16.Encode([]rune{used[g]}) {
				fmt.Fprintf(&b, "%04x", u)
			}
			b.WriteString(">\n")
		}
		b.WriteString("endbfchar\n")
	}
	b.WriteString("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n")
	return b.Bytes()
}

// textString writes s as UTF-16 with its mark, which every letter fits.
func textString(s string) string {
	var b strings.Builder
	b.WriteString("<feff")
	for _, u := range utf16.Encode([]rune(s)) {
		fmt.Fprintf(&b, "%04x", u)
	}
	return b.String() + ">"
}
