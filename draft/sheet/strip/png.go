package strip

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"io"
)

// perMetre is the fineness of the print head, 203 dots to the inch.
const perMetre = 7992

// png writes the picture as grey of one bit (ISO/IEC 15948), where a set bit is
// white.
func (b *bits) png(w io.Writer) error {
	var raw bytes.Buffer
	// As PDFs are pressed: the page's program can press no other way.
	z, err := zlib.NewWriterLevel(&raw, zlib.BestCompression)
	if err != nil {
		return err
	}
	for _, row := range b.rows {
		line := make([]byte, 1, 1+len(row)) // filtered in no way
		for _, v := range row {
			line = append(line, ^v)
		}
		if _, err := z.Write(line); err != nil {
			return err
		}
	}
	if err := z.Close(); err != nil {
		return err
	}
	out := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(kind string, data []byte) {
		out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
		from := len(out)
		out = append(append(out, kind...), data...)
		out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[from:]))
	}
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, Width), uint32(len(b.rows)))
	chunk("IHDR", append(head, 1, 0, 0, 0, 0))
	fine := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, perMetre), perMetre)
	chunk("pHYs", append(fine, 1))
	chunk("IDAT", raw.Bytes())
	chunk("IEND", nil)
	_, err = w.Write(out)
	return err
}
