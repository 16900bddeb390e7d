using Microsoft.AspNetCore.Http.HttpResults;
using TransportPlanner.Core.Gas;
using TransportPlanner.Web.Http;

namespace TransportPlanner.Web.Gas;

/// <summary>Why a cylinder of a well-formed request is refused; every code comes with 422 and the path of sizeId.</summary>
internal enum CylinderProblemCode
{
    /// <summary>A letter means different cylinders in different countries; candidates lists them with their litres.</summary>
    SizeWithoutCountry,
    /// <summary>The id is not in the cylinder library.</summary>
    UnknownSize,
    /// <summary>The size is listed for another gas; contents of one gas are never used for another.</summary>
    SizeOfOtherGas,
    /// <summary>The library knows the litres of this size but not the pressure of a full cylinder, so a gauge reading says nothing.</summary>
    SizeWithoutPressure,
}

/// <summary>Turns the cylinders of a request into those of the computation, or into the problem that says what to give instead.</summary>
internal static class CylinderProblems
{
    /// <param name="requests">Validated cylinders of a request body.</param>
    /// <param name="path">CamelCase path of the list in the body.</param>
    /// <param name="cylinders">The cylinders where null is returned; else empty.</param>
    public static ProblemHttpResult? Find(IReadOnlyList<CylinderRequest> requests, string path, out IReadOnlyList<Cylinder> cylinders)
    {
        cylinders = [];
        for (var i = 0; i < requests.Count; i++)
        {
            if (requests[i].FindSize() is { } lookup and not CylinderLookup.Found)
                return Refuse(lookup, $"{path}[{i}].sizeId");
        }

        cylinders = [.. requests.Select(request => request.ToCylinder())];
        return null;
    }

    private static ProblemHttpResult Refuse(CylinderLookup lookup, string path) => lookup switch
    {
        CylinderLookup.NoCountry letter => Problems.Impossible(
            CylinderProblemCode.SizeWithoutCountry, $"{letter}", ("errors", new Dictionary<string, string[]> { [path] = [$"{letter}"] }),
            ("candidates", letter.Candidates.Select(CylinderSizeResponse.From))),
        CylinderLookup.OtherGas => Problems.ImpossibleField(CylinderProblemCode.SizeOfOtherGas, path, $"{lookup}"),
        CylinderLookup.NoPressure => Problems.ImpossibleField(CylinderProblemCode.SizeWithoutPressure, path, $"{lookup}"),
        CylinderLookup.Unknown => Problems.ImpossibleField(CylinderProblemCode.UnknownSize, path, $"{lookup}"),
        _ => throw new InvalidOperationException($"No problem for {lookup}."),
    };
}
