package kit

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/geom"
)

// grip follows the finger that moves what is held. A second finger lets go.
type grip struct {
	held, moved, dropped bool
	finger               int
	from                 spot
}

// take is told of a finger that comes down.
func (d *Drawing) take(paper app.Value, finger int, where spot) {
	second, s := len(d.hand.fingers) > 0, d.look.Scale()
	if d.grip.held {
		d.grip = grip{}
		d.settle(paper, false)
	}
	if d.Held == "" || second || s == 0 || !d.OnGrip(d.look.At(where.x, where.y), fingertip/s/2) {
		return
	}
	d.grip = grip{held: true, finger: finger, from: where}
}

// carry moves what is held with a finger, and reports whether it does. Nothing
// but one attribute of one group changes.
func (d *Drawing) carry(paper app.Value, finger int, to spot) bool {
	if !d.grip.held || d.grip.finger != finger {
		return false
	}
	if !d.grip.moved && d.grip.from.dist(to) <= slip {
		return true
	}
	d.grip.moved = true
	by := d.moved(to)
	group := paper.Call("querySelector", `[data-id="`+d.Held+`"]`)
	if !group.Truthy() {
		return true
	}
	place := func(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }
	group.Call("setAttribute", "transform", "translate("+place(by.X)+" "+place(by.Y)+")")
	group.Call("setAttribute", "data-over", YesNo(!d.OnMove(by)))
	return true
}

// moved is how far a finger has moved what is held, mm.
func (d *Drawing) moved(to spot) geom.Vec {
	return d.look.At(to.x, to.y).Sub(d.look.At(d.grip.from.x, d.grip.from.y))
}

// drop is told of a finger that goes up, and reports whether it had moved what
// is held. That stays where it was let go until the next document or, when none
// comes of it, goes back.
func (d *Drawing) drop(finger int, where spot) bool {
	if !d.grip.held || d.grip.finger != finger {
		return false
	}
	moved, by := d.grip.moved, d.moved(where)
	d.grip = grip{dropped: moved}
	if moved {
		d.ctx.Dispatch(func(app.Context) { d.OnDrop(by) })
	}
	return moved
}

// settle shows what can be moved, and puts back what was let go in vain.
func (d *Drawing) settle(paper app.Value, fresh bool) {
	paper.Get("dataset").Set("held", YesNo(d.Held != ""))
	if d.grip.held && !fresh {
		return
	}
	if group := paper.Call("querySelector", "[transform^=translate][data-id]"); group.Truthy() {
		group.Call("removeAttribute", "transform")
		group.Call("removeAttribute", "data-over")
	}
	if d.grip.dropped {
		d.grip = grip{}
	}
}
