package org.yardfall.site;

import java.util.Optional;

/** What a survey shot stands for, by its field code. */
public enum ShotRole {
  /** A point on the bare ground. */
  GROUND,
  /** A point of a line along which the ground bends, joined to the one before with that code. */
  BREAKLINE,
  /** An outlet's invert: a place for a drain to end, no point of the ground; of no stated kind. */
  OUTLET,
  /** The invert that a pipe may enter a catch basin at. */
  CATCH_BASIN,
  /** A ditch's bed, or the invert of a culvert in it. */
  DITCH,
  /** The usual level of a stream or pond. */
  WATERWAY,
  /** A street's gutter. */
  STREET,
  /** A corner of a building, on the ground; corners with one code make an outline in order. */
  BUILDING_CORNER,
  /** Of no account to the ground: a tree, a bench mark on a wall, the rim of a pipe. */
  IGNORE;

  /** The kind of outlet that it stands for; a ditch where the kind is not stated. */
  public Optional<Outlet.Kind> outlet() {
    return switch (this) {
      case CATCH_BASIN -> Optional.of(Outlet.Kind.CATCH_BASIN);
      case OUTLET, DITCH -> Optional.of(Outlet.Kind.DITCH);
      case WATERWAY -> Optional.of(Outlet.Kind.WATERWAY);
      case STREET -> Optional.of(Outlet.Kind.STREET);
      default -> Optional.empty();
    };
  }

  /** Whether such a shot stands on the ground. */
  public boolean onGround() {
    return this == GROUND || this == BREAKLINE || this == BUILDING_CORNER;
  }
}
