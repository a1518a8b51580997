package org.yardfall.site;

/** What a survey shot stands for, by its field code. */
public enum ShotRole {
  /** A point on the bare ground. */
  GROUND,
  /** A point of a line along which the ground bends, joined to the one before with that code. */
  BREAKLINE,
  /** An outlet's invert: a place for a drain to end, no point of the ground. */
  OUTLET,
  /** A corner of a building, on the ground; corners with one code make an outline in order. */
  BUILDING_CORNER,
  /** Of no account to the ground: a tree, a bench mark on a wall, the rim of a pipe. */
  IGNORE
}
