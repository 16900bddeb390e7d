using System.ComponentModel.DataAnnotations;
using System.Globalization;
using TransportPlanner.Core.Exposure;

namespace TransportPlanner.Web.Exposure;

/// <summary>One place, one source that stays for a while, and the people around it.</summary>
public sealed record ExposureRequest
{
    /// <summary>Volume of the place in cubic metres, 1 to 100,000.</summary>
    [Range(1, 100_000.0, ErrorMessage = "Give a volume of 1 to 100,000 m³: floor area times height.")]
    public required double VolumeCubicMetres { get; init; }

    /// <summary>Air changes, decay and deposition together, per hour, 0.01 to 1,000. Without any loss the sum has no end.</summary>
    [Range(0.01, 1_000.0, ErrorMessage = "Give a loss rate of 0.01 to 1,000 per hour: without any loss the sum has no end.")]
    public required double LossRatePerHour { get; init; }

    /// <summary>How long the source is in the place, in seconds, 0 to 86,400.</summary>
    [Range(0, 86_400.0, ErrorMessage = "Give a dwell of 0 to 86,400 s.")]
    public required double DwellSeconds { get; init; }

    /// <summary>Mean number of people in the place, the team excluded, 0 to 10,000.</summary>
    [Range(0, 10_000.0, ErrorMessage = "Give 0 to 10,000 bystanders, as a mean.")]
    public required double Bystanders { get; init; }

    /// <summary>True: nobody is in the place during the dwell.</summary>
    public bool HeldDuring { get; init; }

    /// <summary>Minutes after the source left in which nobody enters, 0 to 10,080. Default 0.</summary>
    [Range(0, 10_080.0, ErrorMessage = "Give a hold of 0 to 10,080 min.")]
    public double HoldMinutes { get; init; }

    /// <summary>Minutes that people then stay, 0 to 10,080.</summary>
    [Range(0, 10_080.0, ErrorMessage = "Give a stay of 0 to 10,080 min.")]
    public required double StayMinutes { get; init; }
}

/// <summary>Shared air of the place, to four significant digits. Compares places and ways; says nothing about a person.</summary>
public sealed record ExposureResponse
{
    /// <summary>Time integral of concentration per bystander while the source is there, per unit of source rate, in h²/m³.</summary>
    public required double DoseDuringPerQuantum { get; init; }

    /// <summary>The same over the stay, after the source left and the hold has passed.</summary>
    public required double DoseAfterPerQuantum { get; init; }

    /// <summary>Sum of both (of the later alone when held during) times the bystanders, in h²/m³.</summary>
    public required double TotalPersonDose { get; init; }

    /// <summary>The total as person-minutes in a place that receives 300 m³/h of clean air.</summary>
    public required double WithinStayPersonMinutes { get; init; }

    /// <summary>Person-minutes over all time with nobody held and the same people staying: the figure that adds up over a way.</summary>
    public required double AllTimePersonMinutes { get; init; }

    /// <summary>Both person-minutes with the numbers put in.</summary>
    public required string Working { get; init; }

    internal static ExposureResponse From(ExposureEstimate estimate) => new()
    {
        DoseDuringPerQuantum = Rounded(estimate.DoseDuring),
        DoseAfterPerQuantum = Rounded(estimate.DoseAfter),
        TotalPersonDose = Rounded(estimate.TotalPersonDose),
        WithinStayPersonMinutes = Rounded(estimate.WithinStayMinutes),
        AllTimePersonMinutes = Rounded(estimate.AllTimeMinutes),
        Working = estimate.Working,
    };

    /// <summary>More digits would claim more than the model knows; the doses span many powers of ten.</summary>
    private static double Rounded(double value) => double.Parse(value.ToString("G4", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
}
