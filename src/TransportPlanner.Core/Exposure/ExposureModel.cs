namespace TransportPlanner.Core.Exposure;

/// <summary>
/// One well-mixed place of volume V (m³) that loses airborne matter at the rate λ (per hour: air changes, decay, deposition), and a source
/// of strength one in it for a dwell τ. Compares ways; says nothing about a person.
/// </summary>
/// <remarks>
/// Doses are time integrals of concentration per unit of source rate, in h²/m³. Source of the balance: Gammaitoni and Nucci, Emerg Infect
/// Dis 1997;3:335-342; the later integrals follow from it by hand. Volumes and loss rates must be above 0, times 0 or more; nothing is
/// clipped. Stable for any λτ: series below 0.5, because 1 − e^(−x) loses its digits there.
/// </remarks>
public static class ExposureModel
{
    /// <summary>Clean air of the reference place, m³/h, that makes minutes of shared air. The project's own choice.</summary>
    public const double ReferenceFlow = 300;

    /// <summary>Within this distance, in metres, the air is not mixed yet. The project's own choice.</summary>
    public const double CloseByMetres = 2;

    private const double MinutesPerHour = 60;
    private const double SecondsPerHour = 3_600;
    private const double StandardGravity = 9.81;
    private const double SeriesBelow = 0.5;

    /// <summary>While the source is there: (λτ + e^(−λτ) − 1) / (λ²V).</summary>
    public static double DoseDuring(double volume, double lossPerHour, double dwellHours)
    {
        Check(volume, lossPerHour, dwellHours);
        return dwellHours * dwellHours / volume * PhiTwo(lossPerHour * dwellHours);
    }

    /// <summary>Concentration when the source leaves, h/m³: C₀ = (1 − e^(−λτ)) / (λV).</summary>
    public static double ConcentrationAtEnd(double volume, double lossPerHour, double dwellHours)
    {
        Check(volume, lossPerHour, dwellHours);
        return dwellHours / volume * PhiOne(lossPerHour * dwellHours);
    }

    /// <summary>
    /// Over a stay s after nobody entered for a hold h: C e^(−λ′h) (1 − e^(−λs)) / λ, for any concentration C at the start. λ′ is the loss
    /// rate during the hold, as in a car parked with its doors open. An endless stay gives C e^(−λ′h) / λ.
    /// </summary>
    public static double DoseAfter(double concentration, double lossPerHour, double holdHours, double stayHours, double? holdLossPerHour = null)
    {
        Check(1, lossPerHour, holdHours);
        var left = concentration * Math.Exp(-(holdLossPerHour ?? lossPerHour) * holdHours);
        return double.IsPositiveInfinity(stayHours) ? left / lossPerHour : left * stayHours * PhiOne(lossPerHour * stayHours);
    }

    /// <summary>Person-minutes in the reference place that a person-dose amounts to: 60 · Q_ref · dose.</summary>
    public static double SharedAirMinutes(double personDose, double referenceFlow = ReferenceFlow) => MinutesPerHour * referenceFlow * personDose;

    /// <summary>
    /// Minutes of shared air over all time when people stay as many as they are: N τ Q_ref / (λV), τ in minutes. It adds up over crossings,
    /// and equals the doses during and ever after together.
    /// </summary>
    public static double AllTimeMinutes(double people, double dwellMinutes, double lossPerHour, double volume, double referenceFlow = ReferenceFlow)
    {
        Check(volume, lossPerHour, dwellMinutes);
        return people * dwellMinutes * referenceFlow / (lossPerHour * volume);
    }

    /// <summary>Minutes of shared air where nobody is there during, and people come back after a hold: 60 Q_ref N C₀ e^(−λ′h) / λ.</summary>
    public static double HeldMinutes(
        double people, double dwellMinutes, double lossPerHour, double volume, double holdMinutes, double? holdLossPerHour = null, double referenceFlow = ReferenceFlow) =>
        SharedAirMinutes(
            people * DoseAfter(
                ConcentrationAtEnd(volume, lossPerHour, dwellMinutes / MinutesPerHour), lossPerHour, holdMinutes / MinutesPerHour, double.PositiveInfinity, holdLossPerHour),
            referenceFlow);

    /// <summary>Person-minutes within 2 m: expected people there, N/A · min(A, π·2²), times the dwell.</summary>
    public static double CloseByMinutes(double people, double areaSquareMetres, double dwellMinutes) =>
        people * Math.Min(1, Math.PI * CloseByMetres * CloseByMetres / areaSquareMetres) * dwellMinutes;

    /// <summary>One-way flow through an open doorway by temperature alone, m³/s: (Cd/3) W H^1.5 √(g ΔT/T).</summary>
    /// <remarks>Two-way buoyancy exchange; reference rows ZC-70 to ZC-74. Lidwell, J Hyg 1977;79:141-154, finds it too high above 2–3 K.</remarks>
    public static double DoorwayFlow(double width, double height, double temperatureDifference, double meanTemperature, double dischargeCoefficient) =>
        dischargeCoefficient / 3 * width * Math.Pow(height, 1.5) * Math.Sqrt(StandardGravity * temperatureDifference / meanTemperature);

    /// <summary>
    /// Dwell in the corridor, in minutes, that releases as much there as leaves a room at its steady concentration 1/(λ_r V_r) through a
    /// door open for some minutes: Q_door t / (λ_r V_r), Q_door in m³/s.
    /// </summary>
    public static double EquivalentDwellMinutes(double doorFlow, double openMinutes, double roomLossPerHour, double roomVolume)
    {
        Check(roomVolume, roomLossPerHour, openMinutes);
        return doorFlow * SecondsPerHour * openMinutes / (roomLossPerHour * roomVolume);
    }

    /// <summary>(1 − e^(−x)) / x; 1 at 0.</summary>
    private static double PhiOne(double x) => x < SeriesBelow ? Series(x, 1) : (1 - Math.Exp(-x)) / x;

    /// <summary>(x + e^(−x) − 1) / x²; 1/2 at 0.</summary>
    private static double PhiTwo(double x) => x < SeriesBelow ? Series(x, 2) : (x + Math.Exp(-x) - 1) / (x * x);

    /// <summary>Σ (−x)^k / (k + n)!, alternating and falling: the first term left out bounds the error.</summary>
    private static double Series(double x, int n)
    {
        var (term, sum) = (1.0 / n, 0.0);
        for (var k = 1; Math.Abs(term) > 1e-18; k++)
        {
            sum += term;
            term *= -x / (k + n);
        }

        return sum;
    }

    private static void Check(double volume, double lossPerHour, double time)
    {
        if (!(volume > 0 && double.IsFinite(volume)))
        {
            throw new ArgumentOutOfRangeException(nameof(volume), volume, "Give a volume above 0 m³.");
        }

        if (!(lossPerHour > 0 && double.IsFinite(lossPerHour)))
        {
            throw new ArgumentOutOfRangeException(nameof(lossPerHour), lossPerHour, "Give a loss rate above 0 per hour: without any loss the sum has no end.");
        }

        if (!(time >= 0))
        {
            throw new ArgumentOutOfRangeException(nameof(time), time, "Give a time of 0 or more.");
        }
    }
}
