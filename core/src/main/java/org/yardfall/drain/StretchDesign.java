package org.yardfall.drain;

import org.yardfall.pipe.DrainInflow;
import org.yardfall.pipe.Pipe;
import org.yardfall.route.Station;
import org.yardfall.site.Site;
import org.yardfall.site.Surface;
import org.yardfall.trench.TrenchSection;

/**
 * A stretch of a drain line with its pipe.
 *
 * @param fromM station of its upper end in metres
 * @param toM station of its lower end in metres
 * @param span how it is built
 * @param cover what the ground bears at its middle, which has to be put back
 * @param inRootZone whether its middle lies within the clearance of a tree
 * @param grade fall per metre
 * @param pipe its pipe
 * @param count how many of it lie side by side and share the flow
 * @param flowM3S peak flow that gets into the pipe in m³/s
 * @param arrivingM3S the same if all that arrives got in
 * @param capacityM3S what the pipe, or the pipes together, carry full in m³/s
 * @param depthM depth of flow in metres at uniform flow; the inside diameter where it runs full
 * @param velocityMS velocity of that flow in m/s
 * @param fullVelocityMS velocity of the full pipe in m/s, which the least velocity is held against
 * @param areaM2 ground upstream in m²
 * @param timeS time of concentration in seconds
 * @param upstreamM drain upstream of its lower end in metres
 * @param tradeNominalIn nominal size in inches by the trade's rule of thumb
 * @param groundwaterM3S groundwater drawn upstream of its lower end, part of the flow, in m³/s
 * @param meetsM2S peak that meets it from the ground, in m³/s per metre
 * @param intakeM2S what it can take in, in m³/s per metre; 0 where the pipe is solid
 * @param intakeLimit what holds the intake back; null where the pipe is solid
 */
public record StretchDesign(
    double fromM,
    double toM,
    Station.Span span,
    Surface.Kind cover,
    boolean inRootZone,
    double grade,
    Pipe pipe,
    int count,
    double flowM3S,
    double arrivingM3S,
    double capacityM3S,
    double depthM,
    double velocityMS,
    double fullVelocityMS,
    double areaM2,
    double timeS,
    double upstreamM,
    int tradeNominalIn,
    double groundwaterM3S,
    double meetsM2S,
    double intakeM2S,
    DrainInflow.Limit intakeLimit) {

  /** Length in metres. */
  public double lengthM() {
    return toM - fromM;
  }

  /** Its trench. */
  TrenchSection section(Site site) {
    return TrenchSection.of(site.drain()).withPipe(pipe.outsideM(), pipe.insideM());
  }

  /** What lies in it, in words: {@code 2 × 4 in solid Schedule 40 PVC}. */
  public String pipeWords() {
    return (count > 1 ? count + " × " : "") + pipe.words();
  }

  /** Flow as a share of what the pipe carries full; above 1 it is too small. */
  public double loading() {
    return capacityM3S > 0 ? flowM3S / capacityM3S : flowM3S > 0 ? Double.POSITIVE_INFINITY : 0;
  }

  /** What the pipe passes at the peak in m³/s: the flow, or what it carries full if less. */
  public double passesM3S() {
    return Math.min(flowM3S, capacityM3S);
  }

  /** Whether more water arrives here than the stretch can take in. */
  public boolean overtopped() {
    return span == Station.Span.OPEN && meetsM2S > intakeM2S;
  }
}
