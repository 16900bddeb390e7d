using System.Globalization;

namespace TransportPlanner.Core.Exposure;

/// <summary>Shared air of one place and one dwell, with its working. Doses in h²/m³ per unit of source rate, the rest in person-minutes.</summary>
public sealed record ExposureEstimate
{
    private ExposureEstimate()
    {
    }

    /// <summary>Per bystander, while the source is there; computed also where the place is held.</summary>
    public required double DoseDuring { get; init; }

    /// <summary>Per person, over the stay after the hold.</summary>
    public required double DoseAfter { get; init; }

    /// <summary>Both together, or the later alone where the place is held during, times the bystanders.</summary>
    public required double TotalPersonDose { get; init; }
    public required double WithinStayMinutes { get; init; }

    /// <summary>N τ Q_ref / (λV): over all time, nobody held, the same people staying.</summary>
    public required double AllTimeMinutes { get; init; }
    public required string Working { get; init; }

    /// <param name="volume">m³, above 0.</param>
    /// <param name="lossPerHour">Air changes, decay and deposition together, above 0.</param>
    /// <param name="dwell">How long the source is there.</param>
    /// <param name="bystanders">Mean number of people, the team excluded.</param>
    /// <param name="heldDuring">True: nobody is there during the dwell.</param>
    /// <param name="hold">How long nobody enters afterwards.</param>
    /// <param name="stay">How long people stay from then on.</param>
    /// <exception cref="ArgumentOutOfRangeException">A volume or loss rate is not above 0, or a time is negative.</exception>
    public static ExposureEstimate For(
        double volume, double lossPerHour, TimeSpan dwell, double bystanders, bool heldDuring, TimeSpan hold, TimeSpan stay)
    {
        var during = ExposureModel.DoseDuring(volume, lossPerHour, dwell.TotalHours);
        var after = ExposureModel.DoseAfter(
            ExposureModel.ConcentrationAtEnd(volume, lossPerHour, dwell.TotalHours), lossPerHour, hold.TotalHours, stay.TotalHours);
        var total = bystanders * ((heldDuring ? 0 : during) + after);
        var within = ExposureModel.SharedAirMinutes(total);
        var allTime = ExposureModel.AllTimeMinutes(bystanders, dwell.TotalMinutes, lossPerHour, volume);
        return new()
        {
            DoseDuring = during,
            DoseAfter = after,
            TotalPersonDose = total,
            WithinStayMinutes = within,
            AllTimeMinutes = allTime,
            Working = string.Create(
                CultureInfo.InvariantCulture,
                $"60 × {ExposureModel.ReferenceFlow} m³/h × {bystanders} × ({Digits(heldDuring ? 0 : during)} + {Digits(after)}) h²/m³ = {Digits(within)} person-minutes within the stay; {bystanders} × {Digits(dwell.TotalMinutes)} min × {ExposureModel.ReferenceFlow} m³/h ÷ ({lossPerHour} per h × {volume} m³) = {Digits(allTime)} person-minutes over all time"),
        };
    }

    /// <summary>Four significant digits, as the figures are shown: 5.097e-7, 2.87, 4; whole numbers above.</summary>
    private static string Digits(double value) =>
        value.ToString(value is > 0 and < 0.001 ? "0.###e-0" : value >= 1_000 ? "0" : "G4", CultureInfo.InvariantCulture);
}
