using TransportPlanner.Core.Units;

namespace TransportPlanner.Core.Airing;

/// <summary>How long the air of a place is left to renew before anybody enters: a figure with its working, never a permission.</summary>
/// <param name="ExactMinutes">Minutes from the formula, rounded up to a thousandth; the policy's minutes where a policy decides.</param>
/// <param name="Minutes">Whole minutes, rounded up.</param>
/// <param name="Basis">What the minutes come from.</param>
/// <param name="Working">The formula with the numbers put in.</param>
/// <param name="Assumptions">What must hold for the figure to mean anything.</param>
public sealed record AiringTime(double ExactMinutes, long Minutes, AiringBasis Basis, string Working, IReadOnlyList<string> Assumptions)
{
    public const double MinAirChangesPerHour = 0.1;
    public const double MinRemovalPercent = 50;
    public const double MaxRemovalPercent = 99.9999;

    /// <summary>Perfect mixing.</summary>
    public const double MinMixingFactor = 1;

    /// <summary>Poor mixing. Source: CDC tuberculosis guidance 1994 and 2005, range 1 to 10 (from memory).</summary>
    public const double MaxMixingFactor = 10;

    /// <summary>
    /// Time until the given share of what was in the air has left: t = −ln(1 − removal) ÷ air changes × 60 × mixing factor.
    /// Source: CDC/HICPAC, Guidelines for Environmental Infection Control in Health-Care Facilities, 2003, Appendix B, Table B.1;
    /// that table rounds to nearest, this rounds up.
    /// </summary>
    /// <param name="airChanges">0.1 per hour or more.</param>
    /// <param name="removalPercent">50 to 99.9999.</param>
    /// <param name="mixingFactor">1 to 10.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static AiringTime For(AirChangeRate airChanges, double removalPercent, double mixingFactor = MinMixingFactor)
    {
        Require(airChanges.PerHour, MinAirChangesPerHour, AirChangeRate.MaxPerHour, nameof(airChanges), "air changes per hour");
        Require(removalPercent, MinRemovalPercent, MaxRemovalPercent, nameof(removalPercent), "percent");
        Require(mixingFactor, MinMixingFactor, MaxMixingFactor, nameof(mixingFactor), "(1 is perfect mixing)");

        // Through decimals, so that the share left of 99.9 percent is 0.001 and prints as such.
        var left = 1 - (decimal)removalPercent / 100;
        var exact = -Math.Log((double)left) / airChanges.PerHour * 60 * mixingFactor;
        var shown = Math.Ceiling(exact * 1_000) / 1_000;
        var minutes = (long)Math.Ceiling(exact);
        return new(
            shown, minutes, AiringBasis.AirChanges,
            FormattableString.Invariant(
                $"−ln({left}) ÷ {airChanges.PerHour:0.##} per h × 60 min/h × {mixingFactor:0.#########} = {shown:0.###} min; rounded up: {minutes} min"),
            [
                FormattableString.Invariant($"The place is empty, its source has left and its doors are shut; {removalPercent}% of what was in the air is to be removed."),
                mixingFactor > MinMixingFactor
                    ? FormattableString.Invariant($"Air mixes imperfectly: mixing factor {mixingFactor:0.#########}.")
                    : "Air mixes perfectly (mixing factor 1); still corners take longer.",
                FormattableString.Invariant($"The ventilation gives {airChanges.PerHour:0.##} air changes per hour all the time."),
                "Settling and decay are not credited.",
            ]);
    }

    /// <summary>
    /// The site's fixed minutes, for a place whose air changes are unknown (null) and for a corridor, which nobody can close for the hours
    /// that the formula would ask. Where air changes are known the working says what share would be left.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">The policy's minutes are not between 0 and 1,440.</exception>
    public static AiringTime ByPolicy(AiringPolicy policy, AirChangeRate? airChanges)
    {
        Require(policy.Minutes, 0, AiringPolicy.MaxMinutes, nameof(policy), "min");
        var working = airChanges is { } known
            ? FormattableString.Invariant(
                $"Fixed time; share of the air left by then: exp(−{known.PerHour:0.##} per h × {policy.Minutes} min ÷ 60 min/h) = {FractionLeft(known, policy.Minutes):0.0000}")
            : "Fixed time; air changes are unknown, so the share left is unknown";
        return new(
            policy.Minutes, policy.Minutes, AiringBasis.Policy, working,
            [
                FormattableString.Invariant($"The time is a rule of the site ({policy.Source}){(policy.IsAssumed ? ", assumed until the site confirms it" : "")}; it is not computed from the ventilation."),
            ]);
    }

    /// <summary>
    /// An elevator car parked on its level, with doors shut or held open. Unknown rates (null) take the slow end of what was measured:
    /// <see cref="ElevatorCarRates"/>, named as assumed.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is out of its range.</exception>
    public static AiringTime ForElevatorCar(bool doorsOpen, AirChangeRate? airChanges, double removalPercent, double mixingFactor = MinMixingFactor)
    {
        var time = For(airChanges ?? (doorsOpen ? ElevatorCarRates.DoorsOpen : ElevatorCarRates.DoorsShut), removalPercent, mixingFactor);
        var parked = doorsOpen
            ? "The car stays parked with its doors held open, and nobody stands on the landing."
            : "The car stays parked with its doors shut.";
        var rate = airChanges is null ? $"Air changes of the car are unknown; assumed: {ElevatorCarRates.Source}." : "Air changes of the car are the site's own.";
        return time with
        {
            Assumptions = [parked, rate, .. time.Assumptions.Skip(1)],
        };
    }

    /// <summary>Share of what was in the air that is left, 0 to 1: exp(−air changes × hours), perfect mixing, no source.</summary>
    internal static double FractionLeft(AirChangeRate airChanges, double minutes) => Math.Exp(-airChanges.PerHour * minutes / 60);

    private static void Require(double value, double min, double max, string name, string unit)
    {
        if (!(value >= min && value <= max))
            throw new ArgumentOutOfRangeException(name, value, FormattableString.Invariant($"Give a number from {min} to {max} {unit}."));
    }
}
