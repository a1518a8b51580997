package org.yardfall.elevation;

/**
 * How far a shot stands from a gridded surface.
 *
 * @param shot the shot
 * @param offM its elevation less the surface's there, in metres
 */
public record ShotResidual(Shot shot, double offM) {}
