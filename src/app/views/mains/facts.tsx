/** Named values under one another. */
export const Facts = ({ of }: { of: readonly (readonly [name: string, value: string])[] }) => (
  <dl className="mains-facts">
    {of.map(([name, value]) => (
      <div key={name}>
        <dt>{name}</dt>
        <dd>{value}</dd>
      </div>
    ))}
  </dl>
)
