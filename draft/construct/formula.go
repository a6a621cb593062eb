package construct

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"chalkfold/draft/say"
)

// Formula is one parsed sum. The zero Formula has no source and no value.
type Formula struct {
	src  string
	root *node
}

type node struct {
	op   byte // 'n' number, 'v' name, '+', '-', '*', '/', '~' minus, '<' least, '>' most, 'r' root
	num  float64
	unit string // of a number: "", "in", "cm", "mm"
	name string
	l, r *node
}

// Parse reads a formula. The error says where it stumbled.
func Parse(src string) (Formula, error) {
	p := &parser{src: src}
	n, err := p.sum()
	if err == nil {
		p.skip()
		if p.pos < len(src) {
			err = p.fail("did not expect %q", src[p.pos:])
		}
	}
	if err != nil {
		return Formula{}, err
	}
	return Formula{src: src, root: n}, nil
}

// String returns the formula as it was written.
func (f Formula) String() string { return f.src }

// Names returns the names used, in order of first use.
func (f Formula) Names() []string {
	var out []string
	seen := map[string]bool{}
	var walk func(*node)
	walk = func(n *node) {
		if n == nil {
			return
		}
		if n.op == 'v' && !seen[n.name] {
			seen[n.name] = true
			out = append(out, n.name)
		}
		walk(n.l)
		walk(n.r)
	}
	walk(f.root)
	return out
}

type parser struct {
	src string
	pos int
}

func (p *parser) fail(format string, args ...any) error {
	return fmt.Errorf("formula %q at place %d: %s", p.src, p.pos+1, fmt.Sprintf(format, args...))
}

func (p *parser) skip() {
	for p.pos < len(p.src) && p.src[p.pos] == ' ' {
		p.pos++
	}
}

func (p *parser) peek() byte {
	p.skip()
	if p.pos < len(p.src) {
		return p.src[p.pos]
	}
	return 0
}

func (p *parser) sum() (*node, error) { return p.chain("+-", p.product) }

func (p *parser) product() (*node, error) { return p.chain("*/", p.factor) }

func (p *parser) chain(ops string, next func() (*node, error)) (*node, error) {
	l, err := next()
	for err == nil {
		c := p.peek()
		if c == 0 || strings.IndexByte(ops, c) < 0 {
			return l, nil
		}
		p.pos++
		var r *node
		if r, err = next(); err == nil {
			l = &node{op: c, l: l, r: r}
		}
	}
	return nil, err
}

func (p *parser) factor() (*node, error) {
	switch c := p.peek(); {
	case c == '-':
		p.pos++
		n, err := p.factor()
		return &node{op: '~', l: n}, err
	case c == '(':
		p.pos++
		n, err := p.sum()
		if err != nil {
			return nil, err
		}
		return n, p.want(')')
	case c >= '0' && c <= '9' || c == '.':
		return p.number()
	case isLetter(c):
		return p.word()
	case c == 0:
		return nil, p.fail("ends too early")
	default:
		return nil, p.fail("did not expect %q", string(c))
	}
}

func (p *parser) want(c byte) error {
	if p.peek() != c {
		return p.fail("expected %q", string(c))
	}
	p.pos++
	return nil
}

func (p *parser) number() (*node, error) {
	start := p.pos
	for p.pos < len(p.src) && (p.src[p.pos] >= '0' && p.src[p.pos] <= '9' || p.src[p.pos] == '.') {
		p.pos++
	}
	v, err := strconv.ParseFloat(p.src[start:p.pos], 64)
	if err != nil {
		return nil, p.fail("%q is no number", p.src[start:p.pos])
	}
	n := &node{op: 'n', num: v}
	save := p.pos
	p.skip()
	switch w := p.ident(); w {
	case "in", "cm", "mm":
		n.unit = w
	default:
		p.pos = save
	}
	return n, nil
}

func isLetter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' }

func (p *parser) ident() string {
	start := p.pos
	for p.pos < len(p.src) {
		c := p.src[p.pos]
		if !isLetter(c) && (p.pos == start || c != '.' && (c < '0' || c > '9')) {
			break
		}
		p.pos++
	}
	return p.src[start:p.pos]
}

func (p *parser) word() (*node, error) {
	name := p.ident()
	op := map[string]byte{"least": '<', "most": '>', "root": 'r'}[name]
	if op == 0 {
		return &node{op: 'v', name: name}, nil
	}
	if err := p.want('('); err != nil {
		return nil, err
	}
	l, err := p.sum()
	if err != nil {
		return nil, err
	}
	n := &node{op: op, l: l}
	if op != 'r' {
		if err := p.want(','); err != nil {
			return nil, err
		}
		if n.r, err = p.sum(); err != nil {
			return nil, err
		}
	}
	return n, p.want(')')
}

// Amount is a value with its dimension: Dim 0 is a plain number, 1 a length
// in mm, 2 an area in mm².
type Amount struct {
	V   float64
	Dim int
}

func (f Formula) eval(get func(string) (Amount, error)) (Amount, error) {
	a, err := f.root.eval(get)
	if err != nil {
		return a, fmt.Errorf("formula %q: %w", f.src, err)
	}
	if math.IsNaN(a.V) || math.IsInf(a.V, 0) {
		return a, fmt.Errorf("formula %q gives no number", f.src)
	}
	return a, nil
}

func unitMM(u string) Amount {
	switch u {
	case "in":
		return Amount{25.4, 1}
	case "cm":
		return Amount{10, 1}
	case "mm":
		return Amount{1, 1}
	}
	return Amount{1, 0}
}

func (n *node) eval(get func(string) (Amount, error)) (Amount, error) {
	switch n.op {
	case 'n':
		u := unitMM(n.unit)
		return Amount{n.num * u.V, u.Dim}, nil
	case 'v':
		return get(n.name)
	}
	a, err := n.l.eval(get)
	if err != nil {
		return a, err
	}
	switch n.op {
	case '~':
		return Amount{-a.V, a.Dim}, nil
	case 'r':
		if a.V < 0 || a.Dim%2 != 0 {
			return a, fmt.Errorf("root of %g (dimension %d) cannot be taken", a.V, a.Dim)
		}
		return Amount{math.Sqrt(a.V), a.Dim / 2}, nil
	}
	b, err := n.r.eval(get)
	if err != nil {
		return b, err
	}
	switch n.op {
	case '*':
		return Amount{a.V * b.V, a.Dim + b.Dim}, nil
	case '/':
		if b.V == 0 {
			return a, fmt.Errorf("division by nought")
		}
		return Amount{a.V / b.V, a.Dim - b.Dim}, nil
	}
	if a.Dim != b.Dim {
		return a, fmt.Errorf("a length cannot be put together with a plain number by %q", string(n.op))
	}
	switch n.op {
	case '+':
		a.V += b.V
	case '-':
		a.V -= b.V
	case '<':
		a.V = math.Min(a.V, b.V)
	case '>':
		a.V = math.Max(a.V, b.V)
	}
	return a, nil
}

// binding strength: words 0, sums 1, products 2, single things 3.
func (n *node) binding() int {
	switch n.op {
	case '<', '>', 'r':
		return 0
	case '+', '-', '~':
		return 1
	case '*', '/':
		return 2
	}
	return 3
}

// text writes the sum with every name and number put through leaf, in the
// signs that makers write: ÷ and ×.
func (n *node) text(w *say.Words, leaf func(*node) string) string {
	side := func(m *node, least int) string {
		s := m.text(w, leaf)
		if m.binding() < least {
			return "(" + s + ")"
		}
		return s
	}
	switch n.op {
	case 'n', 'v':
		return leaf(n)
	case '~':
		return "−" + side(n.l, 2)
	case 'r':
		return w.F("the square root of %s", side(n.l, 3))
	case '<':
		return w.F("the smaller of %s and %s", side(n.l, 1), side(n.r, 1))
	case '>':
		return w.F("the larger of %s and %s", side(n.l, 1), side(n.r, 1))
	case '+':
		return side(n.l, 1) + " + " + side(n.r, 1)
	case '-':
		return side(n.l, 1) + " − " + side(n.r, 2)
	case '*':
		return side(n.l, 2) + " × " + side(n.r, 2)
	default:
		return side(n.l, 2) + " ÷ " + side(n.r, 3)
	}
}
