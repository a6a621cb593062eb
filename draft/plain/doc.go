// Package plain writes and reads JSON one value after the other. Whoever has a
// record of his own says in a few lines how it is written and how it is read:
//
//	w := &plain.Writer{}
//	w.Open('{')
//	w.Key("version").Int(1)
//	w.TextIf("name", c.Name) // left out when it is empty
//	w.Shut('}')
//	data, err := w.Done()
//
//	r := plain.Read(data)
//	for key := range r.Object() {
//		switch key {
//		case "version":
//			c.Version = r.Int()
//		case "name":
//			c.Name = r.Text()
//		}
//	}
//	err := r.End()
//
// It stands in for encoding/json, which looks through types while the program
// runs and weighs 40 kB more in the page; what is written is the same to the byte,
// and the same is taken for JSON. Of a key that is given twice a Reader tells
// both times, so that the later counts. Unlike there, keys are told apart by
// capitals.
package plain
