namespace TransportPlanner.Core.Gas;

/// <summary>What the library says to a size id: the size, or a refusal that names what to give instead.</summary>
public abstract record CylinderLookup
{
    private CylinderLookup()
    {
    }

    public sealed record Found(CylinderSize Size) : CylinderLookup;

    /// <summary>A bare letter: it means different cylinders in different countries.</summary>
    public sealed record NoCountry(string Letter, IReadOnlyList<CylinderSize> Candidates) : CylinderLookup
    {
        public override string ToString() =>
            $"'{Letter}' means different cylinders in different countries: give one of {string.Join(", ", Candidates.Select(c => c.Full is null ? $"{c.LitresText} (only by its label)" : c.LitresText))}, or the label's litres and pressure.";
    }

    /// <summary>The id belongs to a size of another gas; contents of one gas are never used for another.</summary>
    public sealed record OtherGas(CylinderSize Size) : CylinderLookup
    {
        public override string ToString() =>
            $"{Size.Id} is listed for {GasText.Name(Size.Gas)}: contents of one gas are never used for another. Give the label's litres and pressure, or the water capacity.";
    }

    /// <summary>The library has litres but no pressure for this size, so a gauge reading says nothing.</summary>
    public sealed record NoPressure(CylinderSize Size) : CylinderLookup
    {
        public override string ToString() =>
            $"{Size.LitresText}: the pressure of a full cylinder is not published. Give the label's litres and pressure, or the water capacity.";
    }

    /// <summary>A size that the site entered once and nobody confirmed.</summary>
    public sealed record NotConfirmed(string SizeId) : CylinderLookup
    {
        public override string ToString() =>
            $"{SizeId} was entered once and not confirmed: a second role enters it again from the label first. Until then give the label's litres and pressure.";
    }

    public sealed record Unknown(string SizeId) : CylinderLookup
    {
        public override string ToString() =>
            $"'{SizeId}' is not in the cylinder library. Give an id of the library, or the label's litres and pressure.";
    }
}
