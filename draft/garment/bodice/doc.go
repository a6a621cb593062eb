// Package bodice drafts a fitted bodice without sleeves: the front on the fold
// of the cloth, the back by itself, with a bust dart from the side or from the
// shoulder and darts at the waist (common practice). Draft is the one entry; read
// it first: levels, widths, back marks, front marks, lines, panels, pieces,
// claims.
//
// The front is longer than the back by what the bust takes: that is the bust
// dart. As it is spoken the seams of front and back do not quite agree and meet
// at corners. Each truing mends one of these under a name of its own and can be
// switched off:
//
//   - ease: the rule of thumb is for the body; room is added, a quarter of it to
//     each panel;
//   - bust: the side leans in below the arm, so front and back are made wider
//     there, until they measure what they must at the level of the bust;
//   - dart: what bust and waist differ by is shared between side and dart;
//   - shoulder: neck and armhole leave the shoulder squarely, so that they run on
//     when it is sewn, and the armhole meets the side so;
//   - waist: the waist is drawn with its dart closed, square at the centre and at
//     the side, and as long as it must be;
//   - side: the front side, its dart closed, is made as long as the back side.
//
// The marks of the front lie in one frame: x = 0 is the centre front, y = 0 the
// level of the side of the neck; those of the back in another: x = 0 is the
// centre back, y = 0 the nape. In both y grows to the waist and x to the side.
package bodice
