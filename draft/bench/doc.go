// Package bench is the order of work: the tasks by which cut pieces become a
// garment.
//
// A garment tells its tasks for one style, one machine and one weight of cloth:
// what each fastens, edge by edge, and what must be done before it. Sorted puts
// them into one sequence, Split gives them to two workers. Nobody writes a list
// down: a task that this job does not have is not there, and what names it as
// done before goes on without it.
//
// That every edge is fastened once, and nothing before what lies under it, is
// tested on the pieces for every style that can be chosen.
package bench
