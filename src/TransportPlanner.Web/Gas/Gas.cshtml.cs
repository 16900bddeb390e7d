using System.Globalization;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;
using TransportPlanner.Core.Gas;

namespace TransportPlanner.Web.Gas;

/// <summary>The gas alone, for somebody who stands with a cylinder. Posted, so that no clinical input stands in an address or a log.</summary>
public sealed class GasModel(TimeProvider time) : PageModel
{
    [BindProperty]
    public GasForm Form { get; set; } = new();

    /// <summary>What was refused, with the fix.</summary>
    public IReadOnlyList<EntryProblem> Problems { get; private set; } = [];

    /// <summary>What is still to be given.</summary>
    public IReadOnlyList<EntryProblem> Missing { get; private set; } = [];
    public GasSupplyResponse? Supply { get; private set; }

    /// <summary>When the answer was computed, in this machine's time with its offset.</summary>
    public string CountedAt => time.GetLocalNow().ToString("yyyy-MM-dd HH:mm '(UTC'zzz')'", CultureInfo.InvariantCulture);

    public static IEnumerable<IGrouping<string, CylinderSize>> Sizes(GasKind gas) =>
        CylinderLibrary.Sizes.Where(size => size.Gas == gas && size.Full is not null).GroupBy(size => GasWords.Region(size.Region));

    public void OnPost()
    {
        var (refused, missing) = (new Entries(), new Entries());
        var request = GasFormReader.Read(Form, refused, missing);
        (Problems, Missing) = (refused.Problems, missing.Problems);
        if (request is not null)
        {
            Supply = GasSupplyResponse.From(GasSupply.For(request.ToRequest([.. request.Cylinders.Select(cylinder => cylinder.ToCylinder())])));
        }
    }
}
