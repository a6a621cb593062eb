package wire

// Encode writes the message.
func (c Create) Encode() []byte {
	w := begin(isCreate, 4+len(c.Invite))
	w.bytes([]byte(c.Invite))
	return w.to
}

// DecodeCreate reads the message.
func DecodeCreate(message []byte) (Create, error) {
	r := read(message, isCreate)
	c := Create{Invite: string(r.bytes(MostInvite))}
	return c, r.end()
}

// Encode writes the message.
func (p Position) Encode() []byte {
	w := begin(isPosition, 8+len(p.ID))
	w.position(p)
	return w.to
}

// DecodePosition reads the message.
func DecodePosition(message []byte) (Position, error) {
	r := read(message, isPosition)
	p := r.position()
	return p, r.end()
}

// Encode writes the message.
func (p Pull) Encode() []byte {
	w := begin(isPull, 8+len(p.After.ID)+4)
	w.position(p.After)
	w.count(int(p.Most))
	return w.to
}

// DecodePull reads the message.
func DecodePull(message []byte) (Pull, error) {
	r := read(message, isPull)
	p := Pull{After: r.position()}
	p.Most = uint32(r.count(1<<32-1, 0))
	return p, r.end()
}

// Encode writes the message.
func (p Page) Encode() []byte {
	size := 8 + len(p.To.ID) + 1 + 4
	for _, e := range p.Entries {
		size += seqEntryHead + len(e.Blob)
	}
	w := begin(isPage, size)
	w.position(p.To)
	more := byte(0)
	if p.More {
		more = 1
	}
	w.to = append(w.to, more)
	w.count(len(p.Entries))
	for _, e := range p.Entries {
		w.number(e.Seq)
		w.entry(e)
	}
	return w.to
}

// DecodePage reads the message. Its entries rise, and none is beyond To.
func DecodePage(message []byte) (Page, error) {
	r := read(message, isPage)
	p := Page{To: r.position(), More: r.truth()}
	var last uint64
	for range r.count(MostMessage/seqEntryHead, seqEntryHead) {
		seq := r.number()
		e := r.entry()
		if e.Seq = seq; seq <= last || seq > p.To.Seq {
			r.fail("entries out of their order")
			break
		}
		last = seq
		p.Entries = append(p.Entries, e)
	}
	if p.More && (len(p.Entries) == 0 || p.Entries[len(p.Entries)-1].At() != p.To) {
		r.fail("a page that does not end with its last entry")
	}
	if err := r.end(); err != nil {
		return Page{}, err
	}
	return p, nil
}

// Encode writes the message.
func (p Push) Encode() []byte {
	size := 8 + len(p.Base.ID) + 4
	for _, e := range p.Entries {
		size += entryHead + len(e.Blob)
	}
	w := begin(isPush, size)
	w.position(p.Base)
	w.count(len(p.Entries))
	for _, e := range p.Entries {
		w.entry(e)
	}
	return w.to
}

// DecodePush reads the message, which passes Check.
func DecodePush(message []byte) (Push, error) {
	r := read(message, isPush)
	p := Push{Base: r.position()}
	for range r.count(MostEntries, entryHead) {
		p.Entries = append(p.Entries, r.entry())
	}
	if err := r.end(); err != nil {
		return Push{}, err
	}
	if err := p.Check(); err != nil {
		return Push{}, err
	}
	return p, nil
}

func (w *writer) entry(e Entry) {
	w.name(e.ID)
	w.name(e.Slot)
	w.bytes(e.Blob)
}

func (r *reader) entry() Entry {
	e := Entry{ID: r.name(), Slot: r.name(), Blob: r.blob(MostBlob)}
	if (e.ID == Name{}) {
		r.fail("an entry without an id")
	}
	return e
}

// EncodeClose asks to close the workshop.
func EncodeClose() []byte { return begin(isClose, 0).to }

// EncodeDone writes the answer that says only that it was done.
func EncodeDone() []byte { return begin(isDone, 0).to }

// EncodeAsk asks for a workshop's usage.
func EncodeAsk() []byte { return begin(isAsk, 0).to }

// DecodeClose reads what EncodeClose wrote.
func DecodeClose(message []byte) error { return read(message, isClose).end() }

// DecodeDone reads what EncodeDone wrote.
func DecodeDone(message []byte) error { return read(message, isDone).end() }

// DecodeAsk reads what EncodeAsk wrote.
func DecodeAsk(message []byte) error { return read(message, isAsk).end() }

// Encode writes the message.
func (u Usage) Encode() []byte {
	w := begin(isUsage, 6*8)
	for _, n := range []uint64{u.Entries, u.LogBytes, u.LogQuota, u.Chunks, u.ChunkBytes, u.ChunkQuota} {
		w.number(n)
	}
	return w.to
}

// DecodeUsage reads the message.
func DecodeUsage(message []byte) (Usage, error) {
	r := read(message, isUsage)
	u := Usage{r.number(), r.number(), r.number(), r.number(), r.number(), r.number()}
	return u, r.end()
}

// Encode writes the message.
func (c Chunk) Encode() []byte {
	w := begin(isChunk, len(c.Name)+4+len(c.Blob))
	w.name(c.Name)
	w.bytes(c.Blob)
	return w.to
}

// DecodeChunk reads the message.
func DecodeChunk(message []byte) (Chunk, error) {
	r := read(message, isChunk)
	c := Chunk{Name: r.name(), Blob: r.blob(MostChunk)}
	return c, r.end()
}

// Encode writes the message.
func (p Parcel) Encode() []byte {
	w := begin(isParcel, len(p.Name)+4+len(p.Blob))
	w.name(p.Name)
	w.bytes(p.Blob)
	return w.to
}

// DecodeParcel reads the message.
func DecodeParcel(message []byte) (Parcel, error) {
	r := read(message, isParcel)
	p := Parcel{Name: r.name(), Blob: r.blob(MostParcel)}
	return p, r.end()
}

// EncodeNames writes names: of chunks, or of one box.
func EncodeNames(names []Name) []byte {
	w := begin(isNames, 4+len(names)*len(Name{}))
	w.count(len(names))
	for _, n := range names {
		w.name(n)
	}
	return w.to
}

// DecodeNames reads what EncodeNames wrote.
func DecodeNames(message []byte) ([]Name, error) {
	r := read(message, isNames)
	n := r.count(MostNames, len(Name{}))
	names := make([]Name, 0, n)
	for range n {
		names = append(names, r.name())
	}
	return names, r.end()
}
