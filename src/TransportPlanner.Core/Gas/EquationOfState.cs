using System.Globalization;

namespace TransportPlanner.Core.Gas;

/// <summary>
/// Reference equation of state: Z = 1 + Σ n·d·δ^d·τ^t for plain terms, + Σ n·δ^d·τ^t·exp(−δ^l)·(d − l·δ^l) for the others, with
/// δ = density ÷ reducing density and τ = reducing temperature ÷ temperature. Oxygen: Schmidt and Wagner, Fluid Phase Equilib
/// 1985;19:175-200, adopted by Stewart, Jacobsen and Wagner, J Phys Chem Ref Data 1991;20:917-1021; published to 300 K, a mild
/// extrapolation above. Air: Lemmon et al., J Phys Chem Ref Data 2000;29, pseudo-pure.
/// </summary>
internal sealed class EquationOfState
{
    internal const double AtmosphereBar = 1.01325;
    internal const double MinCelsius = -20;
    internal const double MaxCelsius = 50;
    private const double CelsiusToKelvin = 273.15;
    private const double PascalsPerBar = 100_000;

    private readonly double _reducingDensity;
    private readonly double _reducingTemperature;
    private readonly double _gasConstant;
    private readonly Term[] _terms;

    private EquationOfState(string gas, double reducingDensity, double reducingTemperature, double gasConstant)
    {
        _reducingDensity = reducingDensity;
        _reducingTemperature = reducingTemperature;
        _gasConstant = gasConstant;
        _terms = [.. DataFile.Read("equation-of-state.csv").Where(row => row["gas"] == gas)
            .Select(row => new Term(Number(row["n"]), Number(row["d"]), Number(row["t"]), Number(row["l"])))];
    }

    internal static EquationOfState Oxygen { get; } = new("oxygen", 13_630, 154.581, 8.31434);
    internal static EquationOfState Air { get; } = new("air", 10_447.7, 132.6312, 8.31451);

    internal static EquationOfState Of(GasKind gas) => gas == GasKind.Oxygen ? Oxygen : Air;

    /// <summary>Compressibility factor Z at an absolute pressure in bar and a temperature in °C.</summary>
    internal double Compressibility(double absoluteBar, double celsius)
    {
        var kelvin = celsius + CelsiusToKelvin;
        return absoluteBar * PascalsPerBar / (Density(absoluteBar * PascalsPerBar, kelvin) * _gasConstant * kelvin);
    }

    /// <summary>
    /// Litres, at the cylinder's temperature and 1.01325 bar, that leave a cylinder between two gauge pressures:
    /// V × (p₁/Z₁ − p₂/Z₂) × Z_ref ÷ 1.01325 with absolute pressures.
    /// </summary>
    internal RealGasLitres Litres(double waterLitres, double gaugeBar, double residualBar, double celsius)
    {
        var (from, to) = (gaugeBar + AtmosphereBar, residualBar + AtmosphereBar);
        var (zFrom, zTo, zReference) = (Compressibility(from, celsius), Compressibility(to, celsius), Compressibility(AtmosphereBar, celsius));
        return new(waterLitres * (from / zFrom - to / zTo) * zReference / AtmosphereBar, from, zFrom, to, zTo, zReference);
    }

    /// <summary>mol/m³ at a residual gauge pressure and at the atmosphere, from which <see cref="GaugeBar"/> counts.</summary>
    internal (double Residual, double Reference) Densities(double residualBar, double celsius) => (
        Density((residualBar + AtmosphereBar) * PascalsPerBar, celsius + CelsiusToKelvin), Density(AtmosphereBar * PascalsPerBar, celsius + CelsiusToKelvin));

    /// <summary>
    /// The inverse of <see cref="Litres"/>: gauge pressure in bar from which so many litres leave each litre of water capacity. As p/Z is
    /// density times R·T, the litres are V × (ρ₁ − ρ₂) ÷ ρ_ref, which is solved for ρ₁.
    /// </summary>
    internal double GaugeBar(double litresPerWaterLitre, (double Residual, double Reference) densities, double celsius) =>
        Pressure(densities.Residual + litresPerWaterLitre * densities.Reference, celsius + CelsiusToKelvin) / PascalsPerBar - AtmosphereBar;

    /// <summary>Pascals at a density in mol/m³ and a temperature in kelvin.</summary>
    internal double Pressure(double density, double kelvin)
    {
        var delta = density / _reducingDensity;
        var tau = _reducingTemperature / kelvin;
        var z = 1.0;
        foreach (var (n, d, t, l) in _terms)
        {
            var power = l > 0 ? Math.Pow(delta, l) : 0;
            z += n * Math.Pow(delta, d) * Math.Pow(tau, t) * (l > 0 ? Math.Exp(-power) * (d - l * power) : d);
        }

        return density * _gasConstant * kelvin * z;
    }

    /// <summary>mol/m³ at a pressure in pascals, by secant steps: in the range of a cylinder the pressure rises steadily with density.</summary>
    internal double Density(double pascals, double kelvin)
    {
        var before = pascals / (_gasConstant * kelvin);
        var errorBefore = Pressure(before, kelvin) - pascals;
        var density = before * pascals / (errorBefore + pascals);
        for (var step = 0; step < 50 && Math.Abs(density - before) > 1e-12 * density; step++)
        {
            var error = Pressure(density, kelvin) - pascals;
            if (error == errorBefore)
                break;
            var next = density - error * (density - before) / (error - errorBefore);
            (before, errorBefore, density) = (density, error, next);
        }

        return density;
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    private readonly record struct Term(double Factor, double DensityPower, double TemperaturePower, double ExponentPower);
}

/// <summary>Litres between two absolute pressures, with what they were computed from.</summary>
internal readonly record struct RealGasLitres(double Litres, double FromBar, double FromZ, double ToBar, double ToZ, double ReferenceZ);
