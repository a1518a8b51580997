package org.yardfall.fieldwork;

/**
 * A sag of the pipe that holds water after the drain has run dry.
 *
 * @param line the line it lies in
 * @param fromM station where the water begins in metres
 * @param toM station of the lip that holds it in metres
 * @param depthM greatest depth of the water in metres; no more than the inside diameter
 * @param volumeM3 volume of the water in the pipe in m³
 * @param deepestM station of the greatest depth in metres
 */
public record Belly(
    String line, double fromM, double toM, double depthM, double volumeM3, double deepestM) {

  /** Length of the water in metres. */
  public double lengthM() {
    return toM - fromM;
  }
}
