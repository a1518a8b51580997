package org.yardfall.pipe;

import java.util.EnumMap;
import java.util.Map;

/**
 * How much water a metre of drain can take in, and what holds it back: the fabric on top, the stone
 * or the pipe's openings. Water comes from above, through the trench's width.
 *
 * <ul>
 *   <li>Openings: orifices under the head of water over the pipe, q = C A √(2 g h), C 0.6 for sharp
 *       edges, of which half are taken as blinded by stone.
 *   <li>Stone: Darcy, straight down, so at a gradient of one: q = K w.
 *   <li>Fabric: permittivity times head times width, q = ψ h w (ASTM D4491).
 * </ul>
 */
public final class DrainInflow {

  /**
   * Coefficient of a sharp-edged orifice: 0.60 in FHWA HEC-22 (3rd ed., 2009, example 8-5);
   * textbooks measure 0.61 to 0.62.
   */
  public static final double ORIFICE = 0.6;

  /** Share of the openings taken as free of stone ({@code common practice, no source}). */
  public static final double FREE_SHARE = 0.5;

  /** Conductivity in m/s of clean drainage stone: lower end for clean gravel (from memory). */
  public static final double STONE_CONDUCTIVITY_MS = 0.05;

  private DrainInflow() {}

  /** What may hold the water back. */
  public enum Limit {
    FABRIC,
    STONE,
    OPENINGS
  }

  /** Flow in m³/s of an orifice of an area in m² under a head in metres over its centre. */
  public static double orificeM3S(double coefficient, double areaM2, double headM) {
    return coefficient * areaM2 * Math.sqrt(2 * Manning.GRAVITY * Math.max(0, headM));
  }

  /** Flow in m³/s per metre that the pipe's openings take under a head in metres over them. */
  public static double openingsM2S(Pipe pipe, double headM) {
    return orificeM3S(ORIFICE, FREE_SHARE * pipe.perforationM2PerM(), headM);
  }

  /**
   * Flow in m³/s per metre by limit.
   *
   * @param pipe the pipe
   * @param widthM trench width in metres
   * @param stoneOverM stone over the pipe in metres, full of water
   * @param pondM water standing over the fabric in metres
   * @param permittivityS permittivity of the fabric in 1/s
   */
  public static Map<Limit, Double> byLimitM2S(
      Pipe pipe, double widthM, double stoneOverM, double pondM, double permittivityS) {
    Map<Limit, Double> flows = new EnumMap<>(Limit.class);
    flows.put(Limit.FABRIC, permittivityS * pondM * widthM);
    flows.put(Limit.STONE, STONE_CONDUCTIVITY_MS * widthM);
    flows.put(Limit.OPENINGS, openingsM2S(pipe, stoneOverM));
    return flows;
  }
}
