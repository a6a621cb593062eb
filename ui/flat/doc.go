// Package flat draws the garment laid flat: as it is, front and back, and what each
// answer to a question of its style changes, all from the pieces themselves.
//
// A Board keeps the sketches of one job. It is used by the engine, beside the page, and by
// the page while no helper can be had: ask it what is Unmade for a question, Sketch that
// until nothing is, and have the Pictures.
package flat
