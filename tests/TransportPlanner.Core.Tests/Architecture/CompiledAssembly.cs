using System.Reflection;

namespace TransportPlanner.Core.Tests.Architecture;

/// <summary>A type by its names as metadata has them; a nested type is <c>Outer+Inner</c> in the outer type's namespace.</summary>
public sealed record TypeName(string Namespace, string Name)
{
    public override string ToString() => $"{Namespace}.{Name}";
}

/// <summary>One type that names another.</summary>
public sealed record TypeUse(TypeName User, TypeName Used);

/// <summary>
/// A compiled assembly, read from its file: which type names which other in base types, signatures, local variables and
/// method bodies. What the compiler folds away, constants and <c>nameof</c>, cannot be seen here.
/// </summary>
/// <param name="References">Simple names of the assemblies that this one refers to.</param>
/// <param name="Uses">Every use of a type by a type of this assembly.</param>
/// <param name="PublicSignatureUses">The types that a caller from outside meets: bases, fields and methods that are public or protected.</param>
public sealed record CompiledAssembly(
    IReadOnlyList<string> References, IReadOnlyList<TypeUse> Uses, IReadOnlyList<TypeUse> PublicSignatureUses)
{
    public static CompiledAssembly Of(Assembly assembly)
    {
        using var reader = new AssemblyReader(assembly.Location);
        return new([.. reader.References], [.. reader.Uses], [.. reader.PublicSignatureUses]);
    }
}
